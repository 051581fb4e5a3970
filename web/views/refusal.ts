/**
 * Why something did not happen, for whoever reads the page: the server's own words, and the way to sign in where that is what is missing.
 */
import { element } from "./element.ts";

export function refusal({
  status,
  why,
}: {
  readonly status: number;
  readonly why: string;
}): readonly (Node | string)[] {
  if (status !== 401) return [why];
  const back = encodeURIComponent(location.pathname + location.search);
  return [`${why} `, element("a", { href: `/sign-in?to=${back}` }, "Sign in")];
}
