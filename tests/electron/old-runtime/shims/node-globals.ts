// Node 12 has these as modules alone.
import { performance } from 'node:perf_hooks';
import { TextDecoder, TextEncoder } from 'node:util';

for (const [name, value] of Object.entries({ performance, TextDecoder, TextEncoder })) {
  if (!(name in globalThis)) Object.assign(globalThis, { [name]: value });
}
