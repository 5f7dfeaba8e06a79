// The page of a layout. All that changes is what was sent, and the time: what is shown follows from both,
// so that going back in time sends everything anew to readers that were just opened.
let LAYOUT = JSON.parse(document.getElementById('layout').textContent);
const SHORTEST = 400; // milliseconds from flash to flash: at most three begin in any second
const SETTLED = 1100; // after so many no signal waits for more packets
const FADED = 600; // after so many more nothing fades any more
const clock = {now: 0, end: 10000, rate: 1, playing: false, told: -1};
const controllers = [];
const signals = [];
let sent = [];
let chosen = null;
let outlet = null; // where topics are sent instead, by a page that is served

const HEX = Array.from({length: 256}, (_, byte) => byte.toString(16).padStart(2, '0'));
const at = id => document.getElementById(id);
const fromBase64 = text => Uint8Array.from(atob(text), c => c.charCodeAt(0));
const utf8 = text => new TextEncoder().encode(text);
// What somebody else wrote, with a number for each character that is not seen or turns text round, as the compiler has it.
const visible = text => text.replace(/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\p{DI}\p{NChar}\ufff0-\ufffb]/gu,
    c => `<U+${c.codePointAt(0).toString(16).toUpperCase().padStart(4, '0')}>`);
const seconds = ms => (ms / 1000).toFixed(1) + ' s';

function element(tag, attributes, ...inside) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith('on')) made.addEventListener(name.slice(2), value);
    else if (value !== false) made.setAttribute(name, value);
  }
  made.append(...inside);
  return made;
}
