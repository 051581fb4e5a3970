/** Lets so many tasks run at once; the others wait for their turn, first come, first served. */
export function turns(atOnce: number): <T>(task: () => Promise<T>) => Promise<T> {
  let running = 0;
  const waiting: (() => void)[] = [];
  return async (task) => {
    if (running >= atOnce) await new Promise<void>((resolve) => waiting.push(resolve));
    else running += 1;
    try {
      return await task();
    } finally {
      // Whoever waits takes over this place; else it is free.
      const next = waiting.shift();
      if (next === undefined) running -= 1;
      else next();
    }
  };
}
