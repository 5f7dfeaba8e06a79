// How an LED that is sent some bytes is drawn on a screen of sRGB: its colour as bright as the screen can,
// and how strongly, from 0 to 1. The same as the compiler's; `within` is false where no such screen shows
// the colour, and the nearest on the way to white stands in its place.
function screen(bytes, part, full) {
  let x = 0, y = 0, z = 0;
  for (let i = 0; i < part.order.length; i++) {
    const die = part.light[part.order[i]], share = bytes[i] / 255;
    x += die[0] * share;
    y += die[1] * share;
    z += die[2] * share;
  }
  if (y === 0) return {colour: [0, 0, 0], within: true, strength: 0};
  const linear = [
    (3.2406 * x - 1.5372 * y - 0.4986 * z) / y,
    (-0.9689 * x + 1.8758 * y + 0.0415 * z) / y,
    (0.0557 * x - 0.2040 * y + 1.0570 * z) / y];
  const most = Math.max(...linear), least = Math.min(...linear), white = Math.max(0, -least);
  return {
    colour: linear.map(one => Math.round(255 * coded((one + white) / (most + white)))),
    within: least >= -5e-4 * most,
    strength: coded(Math.min(1, y / full))};
}

function coded(linear) {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}
