// The beginning.

let readerModule = null;
let scratch = null;

async function begin() {
  readerModule = await WebAssembly.compile(fromBase64(JSON.parse(at('reader').textContent)));
  scratch = await Reader.of(readerModule);
  await makeSignals();
  for (let value = 0; value < 32; value++) {
    const click = () => sendAccessory(+at('bus').value, 'value', value);
    at('numbers').append(element('button', {type: 'button', onclick: click}, String(value)));
  }
  listen();
  render();
  tellAspects();
  tellTime();
  if (signals.length) choose(signals[0]);
  // Who asked for less motion starts it.
  play(!matchMedia('(prefers-reduced-motion: reduce)').matches);
  requestAnimationFrame(tick);
}

// Makes everything that depends on the layout.
async function makeSignals() {
  const readers = await Promise.all(LAYOUT.controllers.map(() => Reader.of(readerModule)));
  signals.length = 0;
  LAYOUT.sites.forEach(readSite);
  controllers.splice(0, Infinity, ...LAYOUT.controllers.map((data, i) => makeController(data, i, readers[i])));
  at('signals').replaceChildren();
  drawSignals();
  at('bus').replaceChildren(
      ...LAYOUT.buses.map((bus, i) => element('option', {value: i}, `${bus.name} (${bus.speaks})`)));
  if (LAYOUT.buses.length) chooseBus();
  setRate();
}

function listen() {
  at('play').addEventListener('click', () => play(!clock.playing));
  at('step').addEventListener('click', () => { play(false); goOn(clock.now + 100); tellAspects(); });
  at('time').addEventListener('input', () => goTo(+at('time').value));
  at('night').addEventListener('change', () => {
    const night = at('night').checked ? 1 : 0;
    send({night, words: night ? 'night' : 'day'});
  });
  at('bus').addEventListener('change', chooseBus);
  at('throttle').addEventListener('submit', submitThrottle);
  at('raw').addEventListener('submit', submitPacket);
  at('forget').addEventListener('click', () => { sent = []; tellSent(); goTo(0); });
  at('test').addEventListener('toggle', tellTest);
  at('copy').addEventListener('click', copyTest);
  at('file').addEventListener('change', () => at('file').files.length && openTable(at('file').files[0]));
  document.querySelector('.bar').addEventListener('submit', submitted => submitted.preventDefault());
  document.addEventListener('dragover', over => { over.preventDefault(); document.body.classList.add('over'); });
  document.addEventListener('dragleave', () => document.body.classList.remove('over'));
  document.addEventListener('drop', takeDropped);
}

const begun = begin();
