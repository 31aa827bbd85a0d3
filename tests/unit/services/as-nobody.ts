/** Root may write anywhere, so what a user may not do is tested as nobody for a while. */
export async function asNobody<T>(run: () => Promise<T>): Promise<T> {
  if (process.getuid?.() !== 0 || process.seteuid === undefined) return run();
  process.seteuid(65_534);
  try {
    return await run();
  } finally {
    process.seteuid(0);
  }
}
