/**
 * The page's only way to the server: one request out, its answer or why there is none.
 *
 * Address and what is sent -> Reply. No call throws for what the world may do: no answer, a broken answer and a refusal are all values.
 * A request that was called off (a later one overtook it) never answers.
 */

/** What came back: 2xx with its body, or a refusal with its words. */
export type Reply<Body> =
  | { readonly outcome: "answered"; readonly status: number; readonly body: Body; readonly etag: string | null }
  | Refused;

export type Refused = {
  readonly outcome: "refused";
  /** 0 where no answer came at all. */
  readonly status: number;
  /** Words for whoever reads the page. */
  readonly why: string;
  /** The problem's own members: faults, `now`, `alreadyKept`. */
  readonly problem: Readonly<Record<string, unknown>>;
};

export type Asked = {
  readonly method?: "GET" | "POST" | "PATCH" | "PUT" | "DELETE";
  /** Sent as JSON. */
  readonly json?: unknown;
  /** The revision that is to be changed. */
  readonly revision?: number;
  readonly signal?: AbortSignal;
};

export async function ask<Body>(
  address: string,
  { method = "GET", json, revision, signal }: Asked = {},
): Promise<Reply<Body>> {
  const headers = new Headers({ accept: "application/json" });
  if (json !== undefined) headers.set("content-type", "application/json");
  if (revision !== undefined) headers.set("if-match", `"${revision}"`);
  const body = json === undefined ? null : JSON.stringify(json);
  try {
    const response = await fetch(address, { method, headers, body, ...(signal === undefined ? {} : { signal }) });
    return replyFrom<Body>(response.status, await response.text(), response.headers.get("etag"));
  } catch {
    if (signal?.aborted === true) return new Promise(() => undefined);
    return noAnswer;
  }
}

/** How far an upload has come: what share of it has been sent, 0 to 1; then the server is at it. */
export type Progress = { readonly stage: "sending"; readonly share: number } | { readonly stage: "examining" };

/** Sends a form by XMLHttpRequest: only it tells how much of it has been sent. */
export function sendForm<Body>(
  address: string,
  form: FormData,
  tell: (progress: Progress) => void = () => undefined,
): Promise<Reply<Body>> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    request.upload.addEventListener("progress", ({ loaded, total }) =>
      tell({ stage: "sending", share: loaded / total }),
    );
    request.upload.addEventListener("load", () => tell({ stage: "examining" }));
    request.addEventListener("load", () =>
      resolve(replyFrom<Body>(request.status, request.responseText, request.getResponseHeader("etag"))),
    );
    for (const ending of ["error", "abort", "timeout"]) request.addEventListener(ending, () => resolve(noAnswer));
    request.open("POST", address);
    request.send(form);
  });
}

/** A file as it stands on the server; throws where it can't be had. */
export async function fetchFile(address: string, name: string): Promise<File> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return new File([await response.blob()], name, { type: "text/csv" });
}

const noAnswer: Refused = {
  outcome: "refused",
  status: 0,
  why: "The server could not be reached. Everything on this page is still here: try again.",
  problem: {},
};

function replyFrom<Body>(status: number, text: string, etag: string | null): Reply<Body> {
  const isGood = status >= 200 && status < 300;
  try {
    const body: unknown = text === "" ? null : JSON.parse(text);
    if (isGood) return { outcome: "answered", status, body: body as Body, etag };
    const problem = (body ?? {}) as Readonly<Record<string, unknown>>;
    const words = [problem.detail, problem.title].find((one) => typeof one === "string");
    return { outcome: "refused", status, why: typeof words === "string" ? words : answered(status), problem };
  } catch {
    return {
      outcome: "refused",
      status: isGood ? 0 : status,
      why: isGood ? noAnswer.why : answered(status),
      problem: {},
    };
  }
}

const answered = (status: number): string => `The server answered ${status}. Everything on this page is still here.`;
