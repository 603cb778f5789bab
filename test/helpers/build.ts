import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Tests of the command line run the built program, so it is built from what stands here now. */
export default function setup(): void {
  const script = fileURLToPath(new URL('../../cli/setup.js', import.meta.url));
  const { status } = spawnSync(process.execPath, [script], { stdio: 'inherit' });
  if (status !== 0) throw new Error('the build failed');
}
