/**
 * The page: the built files of the web folder, from the root of the server; the one page answers at every address that it knows.
 *
 * Files with a hash in their name never change and may be kept for a year; the page itself is asked for each time.
 */
import { sep } from "node:path";
import express, { type RequestHandler, Router } from "express";

const pages = ["/instruments", "/instruments/:number", "/instruments/:number/visits/:id", "/due"];

/** Of the workshop's own records, and of the invented loan store. */
const pageAddresses = ["/sign-in", "/invented", ...pages, ...pages.map((page) => `/invented${page}`)];

export function page(webFolder: string): RequestHandler {
  const router = Router();
  const sendPage: RequestHandler = (_request, response, next) => {
    response.sendFile("index.html", { root: webFolder, headers: { "Cache-Control": "no-cache" } }, (error) => {
      // Not built yet: then there is nothing at this address.
      if (error !== undefined && !response.headersSent) next();
    });
  };
  router.get(pageAddresses, sendPage);
  router.use(
    express.static(webFolder, {
      dotfiles: "ignore",
      redirect: false,
      setHeaders(response, path) {
        const hashed = path.includes(`${sep}assets${sep}`);
        response.setHeader("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
      },
    }),
  );
  // Somebody who mistypes an address sees a page that says so; a program, and whoever asks the API, is told by a problem.
  router.get(/^\/(?!(invented\/)?api(\/|$)|assets\/)/, (request, response, next) => {
    if (!request.headers.accept?.includes("text/html")) return next();
    response.status(404);
    sendPage(request, response, next);
  });
  return router;
}
