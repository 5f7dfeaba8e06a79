// The signals.

function makeController(data, index, reader) {
  const controller = {data, index, reader, table: fromBase64(data.table), units: [], chains: []};
  controller.open = () => controller.reader.open(controller.table);
  controller.open();
  controller.chains = data.chains.map(chain => {
    const part = LAYOUT.parts[chain.part], channels = part.order.length, leds = {part, looks: new Map()};
    // What is at an output of a chip is an LED of one die.
    const diodes = LAYOUT.diodes.map(light => ({part: {order: 'D', light: {D: light}}, looks: new Map()}));
    return {
      leds, diodes, full: chain.full, name: chain.name, words: chain.words, channels,
      lamps: [], shown: new Uint8Array(chain.leds * channels), broken: Infinity};
  });
  for (const signal of data.signals) makeSignal(controller, signal);
  controller.chains.forEach(chain => chain.lamps.sort((one, other) => one.from - other.from));
  return controller;
}

function makeSignal(controller, data) {
  const signal = {data, controller, units: []};
  const svg = at('build' + data.build).content.firstElementChild.cloneNode(true);
  signal.says = element('span', {class: 'says'});
  signal.button = element(
      'button', {type: 'button', class: 'signal', 'aria-pressed': 'false', onclick: () => choose(signal)},
      svg, element('span', {class: 'name'}, data.name), signal.says);
  let first = 0, place = 0; // lamps and LEDs of the signal before those of a unit
  for (const unit of data.units) {
    const kind = LAYOUT.kinds[unit.kind], chain = controller.chains[unit.chain];
    const made = {data: unit, kind, signal, first, place, state: kind.states[kind.rest], brightest: new Map(), approached: true};
    const feeds = kind.lamps || Array.from({length: kind.leds}, (_, led) => [led]);
    made.lamps = feeds.map((feed, index) => makeLamp(svg, chain, made, index, feed));
    first += feeds.length;
    place += kind.leds;
    chain.lamps.push(...made.lamps);
    controller.units[unit.unit] = made;
    signal.units.push(made);
  }
  signal.plates = svg.querySelectorAll('[data-plate]');
  signals.push(signal);
}

// A lamp of a unit, lit by the LED at a place, or by an output of the chip that stands there.
function makeLamp(svg, chain, unit, index, [place, channel = 0, diode]) {
  const [drawn, ring] = svg.querySelectorAll(`[data-led="${unit.first + index}"]`);
  const led = unit.data.led + place, from = led * chain.channels + channel;
  const to = diode === undefined ? from + chain.channels : from + 1;
  drawn.setAttribute('fill-opacity', '0');
  drawn.dataset.bytes = '00'.repeat(to - from);
  return {drawn, ring, chain, unit, index, led, from, to, source: diode === undefined ? chain.leds : chain.diodes[diode]};
}

function drawSignals() {
  for (const controller of controllers) {
    at('signals').append(element('h2', {}, 'Controller ' + controller.data.name));
    controller.chains.forEach((chain, index) => {
      const here = signals.filter(s => s.controller === controller && s.data.units[0].chain === index);
      at('signals').append(
          element('h3', {}, `Chain ${chain.name}, ${chain.words}`),
          element('div', {class: 'chain'}, ...here.map(s => s.button)));
    });
  }
}
