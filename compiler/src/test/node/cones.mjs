// A second opinion on the cones of Smith and Pokorny, by a library that has nothing of ours in it. Each line
// read is CIE X, Y and Z; each line written is the answer of the long-wave, middle-wave and short-wave cones,
// by the diagram of MacLeod and Boynton (l, s and luminance).
import xyz from 'color-space/xyz.js';
import 'color-space/macboyn.js';
import { createInterface } from 'node:readline';

for await (const line of createInterface({ input: process.stdin })) {
  const [l, s, luminance] = xyz.macboyn(...line.split(' ').map(Number));
  console.log([l * luminance, (1 - l) * luminance, s * luminance].join(' '));
}
