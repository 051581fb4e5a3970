/** Why the server can't start with what it was told, in words for whoever told it; and what it is told by. */
export type Environment = Readonly<Record<string, string | undefined>>;

export class CantStart extends Error {}
