// The page's own function from bytes to colours: each line read is JSON of bytes, part and full light;
// each line written is red, green, blue, whether the screen shows it, and the strength.
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';

const source = readFileSync('../../main/resources/dev/doublet/page/screen.js', 'utf8');
const screen = new Function(source + '; return screen;')();
for await (const line of createInterface({ input: process.stdin })) {
  const { bytes, part, full } = JSON.parse(line);
  const seen = screen(bytes, part, full);
  console.log([...seen.colour, seen.within ? 1 : 0, seen.strength].join(' '));
}
