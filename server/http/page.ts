/**
 * The page: the built files of the web folder, from the root of the server.
 *
 * Files with a hash in their name never change and may be kept for a year; the page itself is asked for each time.
 */
import { sep } from "node:path";
import express, { type RequestHandler } from "express";

export function page(webFolder: string): RequestHandler {
  return express.static(webFolder, {
    dotfiles: "ignore",
    redirect: false,
    setHeaders(response, path) {
      const hashed = path.includes(`${sep}assets${sep}`);
      response.setHeader("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
    },
  });
}
