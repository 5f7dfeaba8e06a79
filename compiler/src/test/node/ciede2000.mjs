// How the library of second-opinion.mjs does CIEDE2000. Each line read is L*, a* and b* of one colour and of
// another; each line written is their difference.
import { differenceCiede2000 } from 'culori';
import { createInterface } from 'node:readline';

const difference = differenceCiede2000();
for await (const line of createInterface({ input: process.stdin })) {
  const [l1, a1, b1, l2, a2, b2] = line.split(' ').map(Number);
  console.log(
    difference({ mode: 'lab65', l: l1, a: a1, b: b1 }, { mode: 'lab65', l: l2, a: a2, b: b2 }));
}
