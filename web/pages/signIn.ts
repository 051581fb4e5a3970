/**
 * Signing in, where the server answers beyond its own machine: which role, and its password. Afterwards back to where one was going.
 */
import type { Role } from "../../server/records/records.ts";
import type { signIn as signInAt } from "../api/session.ts";
import { element, fill } from "../views/element.ts";
import { choiceInput, fieldOf } from "../views/formFields.ts";
import type { Shell } from "./shell.ts";

export function openSignIn({ main }: Shell, signIn: typeof signInAt): void {
  document.title = "Sign in · Boardtrue";
  const role = choiceInput(
    [
      ["bench", "bench: examine and keep"],
      ["owner", "owner: also take records out, bring them in, erase"],
    ],
    "bench",
  );
  role.name = "role";
  const password = element("input", {
    type: "password",
    name: "password",
    autocomplete: "current-password",
    required: true,
  });
  const trouble = element("p", { class: "trouble", role: "alert" });
  const enter = element("button", { type: "submit", class: "bring" }, "Sign in");
  const form = element(
    "form",
    { class: "fields sign-in", method: "post" },
    fieldOf(role, { name: "You work as" }).element,
    fieldOf(password, { name: "Password" }).element,
    trouble,
    enter,
  );
  fill(main, element("h1", { class: "page-name" }, "Sign in"), form);
  password.focus();
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    enter.disabled = true;
    void signIn(role.value as Role, password.value).then((reply) => {
      enter.disabled = false;
      if (reply.outcome === "answered") return location.assign(wayOn());
      fill(trouble, reply.why);
      password.select();
    });
  });
}

/** Only to a page of this server: an address of another, however it is written, leads to the bench. */
function wayOn(): string {
  const asked = new URLSearchParams(location.search).get("to") ?? "/";
  const to = URL.canParse(asked, location.origin) ? new URL(asked, location.origin) : null;
  return to?.origin === location.origin ? to.href : "/";
}
