// A second opinion on sums of colour, by a library that has nothing of ours in it. Each line read is
// CIE X, Y and Z, white having Y 1; each line written is L*, u* / 13 L* and v* / 13 L*. The last two are
// CIE 1976 u' and v' less those of one white, so that differences between lines are ours too.
import { converter } from 'culori';
import { createInterface } from 'node:readline';

const luv = converter('luv');
for await (const line of createInterface({ input: process.stdin })) {
  const [x, y, z] = line.split(' ').map(Number);
  const { l, u, v } = luv({ mode: 'xyz50', x, y, z });
  console.log([l, u / (13 * l), v / (13 * l)].join(' '));
}
