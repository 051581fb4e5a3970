/**
 * What every page has: the banner with the ways to the other pages, a line where all is invented, and room for the page's own.
 *
 * Whoever must sign in first is taken there, and back afterwards.
 */
import type { Base } from "../api/addresses.ts";
import type { Session } from "../api/session.ts";
import { benchPage, duePage, instrumentsPage } from "../views/addresses.ts";
import { element } from "../views/element.ts";
import type { Place } from "./place.ts";

export type Shell = {
  readonly base: Base;
  /** Room in the banner for what the page can do. */
  readonly tools: HTMLElement;
  readonly main: HTMLElement;
  readonly role: Session["role"];
};

export function shellOf(
  body: HTMLElement,
  base: Base,
  page: Place["page"],
  session: Session,
  signOut: () => Promise<unknown>,
): Shell {
  const tools = element("div", { class: "banner", role: "group", "aria-label": "Bench" });
  const main = element("main", {});
  const way = (address: string, name: string, pages: readonly Place["page"][]) =>
    element("a", { href: address, "aria-current": pages.includes(page) ? "page" : null }, name);
  const ways = element(
    "nav",
    { class: "ways", "aria-label": "Pages" },
    way(benchPage(base), "Bench", ["bench"]),
    way(instrumentsPage(base), "Instruments", ["instruments", "story", "visit"]),
    way(duePage(base), "Due", ["due"]),
  );
  if (session.needed && session.role !== null) ways.append(signOutButton(signOut));
  body.append(
    element(
      "header",
      { class: "masthead" },
      element("p", { class: "wordmark" }, "Boardtrue"),
      page === "sign-in" ? null : ways,
      tools,
    ),
    base === "" ? "" : inventedLine(),
    main,
  );
  return { base, tools, main, role: session.needed ? session.role : "owner" };
}

function signOutButton(signOut: () => Promise<unknown>): HTMLButtonElement {
  const button = element("button", { type: "button" }, "Sign out");
  button.addEventListener("click", () => void signOut().then(() => location.assign("/sign-in")));
  return button;
}

const inventedLine = (): HTMLElement =>
  element(
    "p",
    { class: "invented", role: "note" },
    "Invented loan store, to look around in. Nothing here is kept. ",
    element("a", { href: instrumentsPage("") }, "To the workshop’s own instruments"),
  );
