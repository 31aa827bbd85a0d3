// Leads whoever imports `electron` to what stands in for it.
export async function resolve(specifier, context, next) {
  return next(specifier === 'electron' ? new URL('electron.ts', import.meta.url).href : specifier, context);
}
