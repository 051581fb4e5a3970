/**
 * A browser for tests on a bare machine: Chromium out of a package that npm has already installed.
 *
 * It is unpacked once into test/.cache, in a folder named after the package's version; unpacking goes to a folder of its own that is renamed when
 * whole, so that a test broken off half-way leaves no half browser. CHROMIUM_PATH names another browser to use instead.
 * The package's list of fonts names folders of another machine; the browser ends itself where no font is found, so ours takes its place.
 * Only --no-sandbox is passed: the package's own flags would switch web security off, and tests must see what a user's browser sees.
 */
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium } from "playwright-core";

const root = join(import.meta.dirname, "../../..");
const packaged = join(root, "node_modules/@sparticuz/chromium");

function folder(): string {
  const { version } = JSON.parse(readFileSync(join(packaged, "package.json"), "utf8")) as { version: string };
  return join(root, "test/.cache", `chromium-${version}`);
}

/** Unpacks the packaged browser unless that is done or another is chosen. */
export async function unpackChromium(): Promise<void> {
  const target = folder();
  if (process.env.CHROMIUM_PATH !== undefined || existsSync(join(target, "chromium"))) return;
  const partial = `${target}.partial-${process.pid}`;
  mkdirSync(partial, { recursive: true });
  const kept = process.env.TMPDIR;
  process.env.TMPDIR = partial;
  process.env.AWS_EXECUTION_ENV = "AWS_Lambda_nodejs22.x";
  try {
    const { default: packagedChromium } = await import("@sparticuz/chromium");
    await packagedChromium.executablePath();
    writeFileSync(join(partial, "fonts.conf"), fontList(target));
    if (existsSync(target)) rmSync(partial, { recursive: true });
    else renameSync(partial, target);
  } finally {
    if (kept === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = kept;
  }
}

/** The machine's own fonts where it has any, and the package's. */
const fontList = (target: string): string => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>/usr/share/fonts</dir>
  <dir>${join(target, "fonts")}</dir>
  <cachedir>${join(target, "fonts-cache")}</cachedir>
</fontconfig>
`;

export async function launchChromium(): Promise<Browser> {
  await unpackChromium();
  const other = process.env.CHROMIUM_PATH;
  if (other !== undefined) return chromium.launch({ executablePath: other, args: ["--no-sandbox"] });
  const target = folder();
  const libraries = [join(target, "al2023/lib"), process.env.LD_LIBRARY_PATH].filter(Boolean).join(":");
  return chromium.launch({
    executablePath: join(target, "chromium"),
    args: ["--no-sandbox"],
    env: { ...process.env, LD_LIBRARY_PATH: libraries, FONTCONFIG_FILE: join(target, "fonts.conf") } as Record<
      string,
      string
    >,
  });
}
