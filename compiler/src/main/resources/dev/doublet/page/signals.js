// The signals.

function makeController(data, index, reader) {
  const controller = {data, index, reader, table: fromBase64(data.table), units: [], chains: []};
  controller.open = () => controller.reader.open(controller.table);
  controller.open();
  controller.chains = data.chains.map(chain => {
    const part = LAYOUT.parts[chain.part];
    return {
      part, full: chain.full, name: chain.name, channels: part.order.length,
      lamps: new Array(chain.leds), shown: new Uint8Array(chain.leds * part.order.length), looks: new Map(), broken: Infinity};
  });
  for (const signal of data.signals) makeSignal(controller, signal);
  return controller;
}

function makeSignal(controller, data) {
  const signal = {data, controller, units: []};
  const svg = at('build' + data.build).content.firstElementChild.cloneNode(true);
  signal.says = element('span', {class: 'says'});
  signal.button = element(
      'button', {type: 'button', class: 'signal', 'aria-pressed': 'false', onclick: () => choose(signal)},
      svg, element('span', {class: 'name'}, data.name), signal.says);
  for (const unit of data.units) {
    const kind = LAYOUT.kinds[unit.kind], chain = controller.chains[unit.chain];
    const made = {data: unit, kind, signal, state: kind.states[kind.rest], lamps: [], rings: [], brightest: new Map(), approached: true};
    for (let i = 0; i < kind.leds; i++) {
      const [lamp, ring] = svg.querySelectorAll(`[data-led="${unit.first + i}"]`);
      made.rings.push(ring);
      made.lamps.push(lamp);
      lamp.setAttribute('fill-opacity', '0');
      lamp.dataset.bytes = '00'.repeat(chain.channels);
      chain.lamps[unit.led + i] = {lamp, unit: made, led: unit.first + i};
    }
    controller.units[unit.unit] = made;
    signal.units.push(made);
  }
  signal.plates = svg.querySelectorAll('[data-plate]');
  signals.push(signal);
}

function drawSignals() {
  for (const controller of controllers) {
    at('signals').append(element('h2', {}, 'Controller ' + controller.data.name));
    controller.chains.forEach((chain, index) => {
      const here = signals.filter(s => s.controller === controller && s.data.units[0].chain === index);
      at('signals').append(
          element('h3', {}, `Chain ${chain.name}, ${chain.lamps.length} LEDs`),
          element('div', {class: 'chain'}, ...here.map(s => s.button)));
    });
  }
}
