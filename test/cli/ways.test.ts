import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../parts/index.js';
import { starterPath } from '../helpers/machines.js';
import { SLOW, temporaryFolder, tubewright } from '../helpers/program.js';
import { against } from '../helpers/schemas.js';

const DEMO = starterPath('travelling-demonstrator');
const isMeasured = ({ id }: Finding) =>
  /^(air|surface|wall|line)\/(terminal|upper|lower)-/.test(id) || id.startsWith('supply/motor-c');

describe('ways', () => {
  it(
    'tells where each way runs, least to spare first, and says so to programs',
    () => {
      const told = tubewright(['ways', DEMO]);
      expect(told.status).toBe(0);
      expect(told.stdout).toContain('Ways measured on the solids');
      expect(told.stdout).toMatch(
        /Shortest along surfaces, terminal to base plate, \d+ mm: .* kV\n\s+terminal > .*tube’s outside > .*base plate/,
      );
      expect(told.stdout).toContain('Before touching');

      const { status, stdout } = tubewright(['ways', DEMO, '--json']);
      expect(status).toBe(0);
      const answer = JSON.parse(stdout) as { findings: Finding[] };
      expect(against('ways', answer)).toEqual([]);
      expect(answer.findings.every(isMeasured) || answer.findings.map(({ id }) => id)).toBeTruthy();
      for (const { id, at } of answer.findings) {
        expect(at && 'path' in at && at.path.length, id).toBeGreaterThan(1);
        expect(at && 'path' in at && at.surfaces.length, id).toBeGreaterThan(1);
      }
    },
    SLOW,
  );

  it(
    'are measured before parts are made, and told with them',
    () => {
      const out = join(temporaryFolder(), 'out');
      const { status, stdout } = tubewright([
        'make',
        DEMO,
        '--out',
        out,
        '--only',
        'comb-bar-upper',
        '--json',
      ]);
      expect(status).toBe(0);
      const made = JSON.parse(stdout) as { findings: Finding[] };
      expect(against('make', made)).toEqual([]);
      expect(made.findings.filter(isMeasured).length).toBeGreaterThan(4);
      const without = tubewright(['make', '--no-ways', DEMO, '--out', out, '--json']);
      expect((JSON.parse(without.stdout) as { findings: Finding[] }).findings.filter(isMeasured)).toEqual([]);
      expect(readFileSync(join(out, 'build.txt'), 'utf8')).not.toBe('');
    },
    SLOW,
  );

  it('refuses a file that is not there, with nothing on the output', () => {
    const { status, stdout, stderr } = tubewright(['ways', 'nowhere.yaml']);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain('nowhere.yaml');
  });
});
