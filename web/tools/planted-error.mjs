// Some set-ups of svelte-check pass without looking at anything. So: a component with a type error is planted beside the
// others, and the check has to find it.
import { spawnSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const web = join(dirname(fileURLToPath(import.meta.url)), '..');
const planted = join(web, 'src/parts/Planted.svelte');
writeFileSync(planted, '<script lang="ts">\n  const count: number = "seven";\n</script>\n\n<p>{count}</p>\n');
let run;
try {
  run = spawnSync(
    process.execPath,
    [join(web, 'node_modules/svelte-check/bin/svelte-check'), '--tsconfig', 'tsconfig.json', '--output', 'machine'],
    {
      cwd: web,
      encoding: 'utf8',
    },
  );
} finally {
  rmSync(planted);
}
const found = /ERROR "src\/parts\/Planted\.svelte"/.test(run.stdout);
console.log(
  found ? 'the planted type error was found' : `the planted type error was NOT found:\n${run.stdout}${run.stderr}`,
);
process.exit(found && run.status !== 0 ? 0 : 1);
