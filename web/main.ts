/**
 * Boots the page: which one its address means, with the server behind it.
 */
import { session, signIn, signOut } from "./api/session.ts";
import { openBench } from "./pages/bench.ts";
import { openDue } from "./pages/dueList.ts";
import { openInstruments } from "./pages/instruments.ts";
import { openNone } from "./pages/none.ts";
import { placeOf } from "./pages/place.ts";
import { shellOf } from "./pages/shell.ts";
import { openSignIn } from "./pages/signIn.ts";
import { openStory } from "./pages/story.ts";
import { openVisit } from "./pages/visit.ts";

async function open(body: HTMLElement): Promise<void> {
  const { base, place } = placeOf(location.pathname, location.search);
  const asked = await session();
  const known = asked.outcome === "answered" ? asked.body : { needed: false, role: null };
  const shell = shellOf(body, base, place.page, known, signOut);
  if (place.page === "sign-in") return openSignIn(shell, signIn);
  if (known.needed && known.role === null) {
    location.replace(`/sign-in?to=${encodeURIComponent(location.pathname + location.search)}`);
    return;
  }
  if (place.page === "bench") return openBench(shell, place.number);
  if (place.page === "instruments") return openInstruments(shell);
  if (place.page === "story") return openStory(shell, place.number);
  if (place.page === "visit") return openVisit(shell, place.number, place.id);
  if (place.page === "due") return openDue(shell);
  openNone(shell);
}

void open(document.body);
