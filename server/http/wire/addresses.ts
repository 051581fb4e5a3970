/** Addresses within the API, from where its records are mounted ("/api", "/invented/api"): every part percent-encoded (RFC 3986). */

export function instrumentAddress(base: string, number: string): string {
  return `${base}/instruments/${encodeURIComponent(number)}`;
}

export function visitAddress(base: string, number: string, id: string): string {
  return `${instrumentAddress(base, number)}/visits/${id}`;
}
