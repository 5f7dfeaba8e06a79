// The page of a layout. All that changes is what was sent, and the time: what is shown follows from both,
// so that going back in time sends everything anew to readers that were just opened.
const LAYOUT = JSON.parse(document.getElementById('layout').textContent);
const SHORTEST = 400; // milliseconds from flash to flash: at most three begin in any second
const SETTLED = 1100; // after so many no signal waits for more packets
const FADED = 600; // after so many more nothing fades any more
const clock = {now: 0, end: 10000, rate: 1, playing: false, told: -1};
const controllers = [];
const signals = [];
let sent = [];
let chosen = null;

const at = id => document.getElementById(id);
const fromBase64 = text => Uint8Array.from(atob(text), c => c.charCodeAt(0));
const utf8 = text => new TextEncoder().encode(text);
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

// ---- The signals ----

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
    const made = {data: unit, kind, signal, state: kind.states[kind.rest], lamps: [], rings: [], approached: true};
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

// ---- The time ----

// Lights every lamp as the reader says it is lit now; touches only those that changed.
function render() {
  for (const controller of controllers) {
    controller.chains.forEach((chain, index) => {
      const bytes = controller.reader.frame(index, clock.now), count = chain.channels;
      for (let led = 0; led < chain.lamps.length; led++) {
        const place = led * count;
        let changed = false;
        for (let i = place; i < place + count; i++) changed ||= bytes[i] !== chain.shown[i];
        if (changed) light(chain, led, bytes.subarray(place, place + count));
      }
      chain.shown.set(bytes.subarray(0, chain.shown.length));
    });
  }
}

function light(chain, led, bytes) {
  const there = chain.lamps[led];
  if (!there) return;
  let key = '';
  for (const byte of bytes) key += (byte < 16 ? '0' : '') + byte.toString(16);
  there.lamp.dataset.bytes = key;
  const look = lookOf(chain, key, failed(chain, led, bytes));
  there.lamp.setAttribute('fill', `rgb(${look.colour})`);
  there.lamp.setAttribute('fill-opacity', look.strength.toFixed(3));
  there.look = look;
}

function lookOf(chain, key, bytes) {
  const known = chain.looks.get(bytes.failed ? '' + bytes : key);
  if (known) return known;
  const look = screen(bytes, chain.part, chain.full);
  chain.looks.set(bytes.failed ? '' + bytes : key, look);
  return look;
}

// Says what every signal shows.
function tellAspects() {
  for (const controller of controllers) {
    controller.units.forEach((unit, index) => {
      const number = controller.reader.c.aspect(index, clock.now);
      const state = unit.kind.states.find(s => s.number === number) ||
          {name: 'aspect ' + number, number, words: '', flashing: []};
      if (state === unit.state && unit.told) return;
      unit.state = state;
      unit.told = true;
      const signal = unit.signal;
      tellRings(unit);
      signal.says.textContent = shownBy(signal, u => u.state.name);
      if (signal.fault) relight(signal);
      if (signal === chosen) tellChosen();
    });
  }
}

// A broken ring marks a lamp that flashes.
function tellRings(unit) {
  const fault = unit.signal.fault, stuck = fault && (fault.how === 'LIT' || fault.how === 'UNLIT') ? fault.leds : [];
  unit.rings.forEach((ring, led) => {
    ring.toggleAttribute('hidden', !unit.state.flashing.includes(led) || stuck.includes(unit.data.first + led));
  });
}

function tellTime() {
  clock.end = Math.max(clock.end, clock.now);
  at('time').max = clock.end;
  at('time').value = clock.now;
  at('time').setAttribute('aria-valuetext', seconds(clock.now));
  at('clock').textContent = seconds(clock.now);
  clock.told = clock.now;
}

// Goes on to a later time.
function goOn(now) {
  clock.now = Math.round(now);
  render();
  if (clock.now - clock.told >= 100) {
    tellTime();
    const last = sent.length ? sent[sent.length - 1].at : -SETTLED;
    if (clock.now - last <= SETTLED + FADED) tellAspects();
  }
}

// Goes to any time: everything sent until then is sent anew.
function goTo(now) {
  const until = Math.max(0, Math.round(now));
  controllers.forEach(c => c.open());
  const before = sent.filter(one => one.at <= until);
  before.forEach((one, i) => {
    deliver(one);
    const next = Math.min(i + 1 < before.length ? before[i + 1].at : until, one.at + SETTLED + FADED);
    // In between signals settle and fade, as they did.
    const step = one.packet ? 16 : 100;
    for (clock.now = one.at; clock.now < next; clock.now += step) frames();
  });
  clock.now = until;
  render();
  tellAspects();
  tellTime();
}

function frames() {
  for (const controller of controllers) controller.chains.forEach((c, i) => controller.reader.frame(i, clock.now));
}

let before = 0;
let fraction = 0;
function tick(stamp) {
  if (clock.playing) {
    // A page that was hidden goes on from where it was.
    fraction += Math.min(100, stamp - before) * clock.rate;
    const whole = Math.floor(fraction);
    fraction -= whole;
    if (whole > 0) goOn(clock.now + whole);
  }
  before = stamp;
  requestAnimationFrame(tick);
}

function play(on) {
  clock.playing = on;
  at('play').textContent = on ? 'Pause' : 'Play';
}

// Nothing flashes more than three times in any second: a faster table is played slower.
function setRate() {
  const shortest = Math.min(...controllers.map(c => c.reader.c.shortest()).filter(ms => ms > 0), Infinity);
  clock.rate = Math.min(1, shortest / SHORTEST);
  at('slowed').textContent = clock.rate === 1 ? '' :
      `Played at ${Math.floor(100 * clock.rate)} % of its speed, so that nothing flashes more than three times a second.`;
}

// ---- What is sent ----

// Gives one thing sent to every reader that hears it; returns how many signals it was for.
function deliver(one) {
  return controllers.reduce((count, controller) => count + give(controller, controller.reader, one), 0);
}

function give(controller, reader, one) {
  if (one.night !== undefined) reader.c.night(one.night);
  else if (one.unit && one.unit.signal.controller === controller) reader.c.approach(one.unit.data.unit, one.on, one.at);
  else if (controller.data.buses.includes(one.bus)) return reader.take(controller.data.buses.indexOf(one.bus), one, one.at);
  return 0;
}

function send(one) {
  one.at = clock.now;
  if (sent.some(other => other.at > clock.now)) {
    sent = sent.filter(other => other.at <= clock.now);
    tellSent();
  }
  sent.push(one);
  const count = deliver(one);
  render();
  tellAspects();
  at('sent').append(lineOf(one));
  at('sent').lastElementChild.scrollIntoView({block: 'nearest'});
  tellTest();
  return count;
}

const lineOf = one => element('li', {}, `${seconds(one.at)}: ${one.words}`);

function tellSent() {
  at('sent').replaceChildren(...sent.map(lineOf));
  tellTest();
}

const busWords = bus => LAYOUT.buses[bus].name;
const bytesOf = hex => Uint8Array.from(hex.match(/../g) || [], pair => parseInt(pair, 16));

function event(text) {
  const hex = text.replaceAll('.', '');
  return {high: parseInt(hex.slice(0, 8), 16), low: parseInt(hex.slice(8), 16)};
}

// What a layout's command means on its bus: a packet in hex, an event, or topic and payload.
function message(bus, [words, first, second]) {
  const speaks = LAYOUT.buses[bus].speaks;
  const one = speaks === 'DCC' ? {packet: bytesOf(first.replaceAll(' ', ''))} :
      speaks === 'MQTT' ? {topic: utf8(first), payload: utf8(second)} : event(first);
  return {...one, bus, words: `${busWords(bus)}, ${words}`};
}

function withErrorByte(...bytes) {
  return Uint8Array.from([...bytes, bytes.reduce((sum, byte) => sum ^ byte, 0)]);
}

// An accessory's packet (NMRA S-9.2.1): basic with an output of 0 or 1, extended with a value.
function accessoryPacket(bus, address, basic, value) {
  const binary = (address - 1 + 4 * LAYOUT.buses[bus].firstDecoder) % 2048;
  const first = 0x80 | binary >> 2 & 0x3F, high = (~(binary >> 8) & 7) << 4, port = (binary & 3) << 1;
  return basic ? withErrorByte(first, 0x88 | high | port | value) : withErrorByte(first, 1 | high | port, value);
}

const hexOf = bytes => Array.from(bytes, byte => byte.toString(16).padStart(2, '0').toUpperCase()).join(' ');

function say(text) {
  at('said').textContent = text;
}

function sendTyped(one) {
  const count = send(one);
  say(`${one.words}: ${count === 0 ? 'no signal listens to that' : count === 1 ? 'for one signal' : `for ${count} signals`}.`);
}

const whole = (text, least, most) => /^\d+$/.test(text.trim()) && +text >= least && +text <= most ? +text : null;

function sendAccessory(bus, what, value) {
  const address = whole(at('address').value, 1, 2048);
  if (address === null) return say('An address is a number from 1 to 2048.');
  if (what === 'value' && value === null) return say('A value is a number from 0 to 255.');
  const packet = what === 'value' ? accessoryPacket(bus, address, false, value) :
      accessoryPacket(bus, address, true, what === 'normal' ? 1 : 0);
  const words = what === 'value' ? 'value ' + value : what;
  sendTyped({bus, packet, words: `${busWords(bus)}, address ${address} ${words} (${hexOf(packet)})`});
}

function submitThrottle(submitted) {
  submitted.preventDefault();
  const bus = +at('bus').value, what = submitted.submitter ? submitted.submitter.value : '';
  const speaks = LAYOUT.buses[bus].speaks;
  if (speaks === 'DCC') return sendAccessory(bus, what || 'value', whole(at('value').value, 0, 255));
  if (speaks === 'MQTT') {
    const topic = utf8(at('topic').value), payload = utf8(at('payload').value);
    if (topic.length + payload.length > 512) return say('That is too long: topic and payload have 512 bytes here.');
    return sendTyped({bus, topic, payload, words: `${busWords(bus)}, ${at('topic').value}: ${at('payload').value}`});
  }
  if (!/^[0-9a-f]{2}(\.?[0-9a-f]{2}){7}$/i.test(at('event').value.trim())) {
    return say('An event is eight pairs of hex digits, such as 05.01.01.01.42.00.01.00.');
  }
  sendTyped({...event(at('event').value.trim()), bus, words: `${busWords(bus)}, event ${at('event').value.trim()}`});
}

function submitPacket(submitted) {
  submitted.preventDefault();
  const hex = at('packet').value.replace(/[\s.]/g, '');
  if (!/^([0-9a-f]{2}){3,6}$/i.test(hex)) return say('A packet is 3 to 6 pairs of hex digits, error byte included.');
  const packet = bytesOf(hex), bus = +at('bus').value;
  if (packet.reduce((sum, byte) => sum ^ byte, 0)) return say('The error byte does not fit: all bytes together give 00.');
  sendTyped({bus, packet, words: `${busWords(bus)}, packet ${hexOf(packet)}`});
}

function chooseBus() {
  const speaks = LAYOUT.buses[+at('bus').value].speaks;
  for (const part of document.querySelectorAll('[data-speaks]')) part.hidden = part.dataset.speaks !== speaks;
}

// ---- What was sent, as a test in C ----

const comment = text => text.replaceAll('*/', '* /').replaceAll('/*', '/ *');
const literal = bytes => '"' + Array.from(bytes, byte => '\\x' + byte.toString(16).padStart(2, '0')).join('') + '"';

function lineInC(one, bus) {
  if (one.night !== undefined) return `doublet_set_night(&signals, ${one.night});`;
  if (one.unit) return `doublet_set_approach(&signals, ${one.unit.data.unit}, ${one.on}, ${one.at});`;
  if (one.packet) {
    return `doublet_packet(&signals, ${bus}, (const uint8_t *)${literal(one.packet)}, ${one.packet.length}, ${one.at});`;
  }
  if (one.topic) {
    return `doublet_topic(&signals, ${bus}, ${literal(one.topic)}, ${one.topic.length}, ${literal(one.payload)}, ` +
        `${one.payload.length}, ${one.at});`;
  }
  const id = one.high.toString(16).padStart(8, '0') + one.low.toString(16).padStart(8, '0');
  return `doublet_event(&signals, ${bus}, 0x${id}u, ${one.at});`;
}

// What was sent to each controller; after each command what has changed before the next, and all at the end.
function testInC() {
  const lines = [];
  for (const controller of controllers) {
    const here = sent.filter(one => one.at <= clock.now && (one.night !== undefined ||
        (one.unit ? one.unit.signal.controller === controller : controller.data.buses.includes(one.bus))));
    if (!here.length) continue;
    scratch.open(controller.table);
    lines.push(`/* Controller ${comment(controller.data.name)} */`);
    const known = controller.units.map(unit => unit.kind.states[unit.kind.rest].number);
    const show = (time, all) => controller.units.forEach((unit, index) => {
      const number = scratch.c.aspect(index, time);
      if (all || number !== known[index]) {
        const state = unit.kind.states.find(s => s.number === number), name = state ? state.name : 'aspect ' + number;
        lines.push(`assert(doublet_aspect(&signals, ${index}, ${time}) == ${number}); ` +
            `/* ${comment(unit.data.name)}: ${comment(name)} */`);
      }
      known[index] = number;
    });
    here.forEach((one, i) => {
      give(controller, scratch, one);
      lines.push(`${lineInC(one, controller.data.buses.indexOf(one.bus))} /* ${comment(one.words)} */`);
      show(Math.min(i + 1 < here.length ? here[i + 1].at : clock.now, one.at + SETTLED), false);
    });
    show(clock.now, true);
  }
  return lines.join('\n') + '\n';
}

function tellTest() {
  if (at('test').open) at('lines').value = testInC();
}

function copyTest() {
  tellTest();
  at('lines').select();
  document.execCommand('copy');
}

// ---- The chosen signal ----

function choose(signal) {
  if (chosen) chosen.button.setAttribute('aria-pressed', 'false');
  chosen = signal;
  signal.button.setAttribute('aria-pressed', 'true');
  const parts = signal.units.map(unit => {
    const inside = [unitAspects(unit)];
    if (unit.kind.onApproach) inside.push(approachOf(unit));
    return signal.units.length === 1 ? element('div', {}, ...inside) :
        element('fieldset', {}, element('legend', {}, unit.data.name), ...inside);
  });
  at('chosen').replaceChildren(
      element('h2', {}, 'Signal ' + signal.data.name),
      element('p', {class: 'soft'}, signal.data.form),
      element('p', {id: 'shows', role: 'status'}), faultsOf(signal), ...parts);
  tellChosen();
}

function unitAspects(unit) {
  unit.buttons = unit.kind.states.map((state, index) => {
    const calls = unit.data.calls[index];
    return element(
        'button', {type: 'button', 'aria-pressed': 'false', disabled: calls.length === 0 && '',
          onclick: () => calls.forEach(call => send(message(unit.data.bus, call)))},
        element('strong', {}, `${state.number} ${state.name}`), element('br', {}),
        element('span', {class: 'soft'}, calls.length ? calls.map(call => call[0]).join(', ') : 'no command calls it up'));
  });
  return element('ul', {class: 'aspects'}, ...unit.buttons.map(button => element('li', {}, button)));
}

function approachOf(unit) {
  const box = element('input', {type: 'checkbox', onchange: () => {
    unit.approached = box.checked;
    const on = box.checked ? 1 : 0;
    send({unit, on, words: `${unit.data.name}: ${on ? 'a train approaches' : 'no train approaches'}`});
  }});
  box.checked = unit.approached;
  return element('p', {}, element('label', {}, box, ' A train approaches'));
}

function tellChosen() {
  for (const unit of chosen.units) {
    unit.kind.states.forEach((state, index) =>
        unit.buttons[index].setAttribute('aria-pressed', String(state === unit.state)));
  }
  const shown = shownBy(chosen, u => u.data.place || !u.state.words ? u.state.name : `${u.state.name} (${u.state.words})`);
  at('shows').textContent = (chosen.fault ? 'Is told to show ' : 'Shows ') + shown + paler(chosen);
  at('reading').textContent = readingOf(chosen);
}

// What a signal shows; where heads are commanded by themselves, each with its place.
function shownBy(signal, words) {
  return signal.units.map(unit => (unit.data.place ? unit.data.place + ' ' : '') + words(unit)).join(', ');
}

function paler(signal) {
  const lit = signal.units.flatMap(u => u.lamps.map((lamp, i) =>
      signal.controller.chains[u.data.chain].lamps[u.data.led + i].look));
  return lit.some(look => look && look.strength > 0 && !look.within) ?
      '. One of its colours is paler here than it is: no screen of sRGB shows it' : '';
}

// ---- What fails ----

const VERDICTS = [
  'That permits more than was meant: a false proceed.',
  'Nobody can say whether that permits more than was meant.',
  'That permits no more than was meant.'];

// What an LED shines that is sent some bytes, when something on its signal or its chain has failed.
function failed(chain, led, bytes) {
  const {unit, led: place} = chain.lamps[led], fault = unit.signal.fault;
  if (led >= chain.broken) return darkened(bytes);
  if (!fault || !fault.leds.includes(place)) return bytes;
  if (fault.how === 'DARK') return darkened(bytes);
  if (fault.how === 'DIE') return marked(bytes, (byte, i) => chain.part.order[i] === fault.what ? 0 : byte);
  if (!flashes(unit, place)) return bytes;
  return fault.how === 'LIT' ? lit(chain, unit, place - unit.data.first) : darkened(bytes);
}

const flashes = (unit, place) => unit.state.flashing.includes(place - unit.data.first);
const darkened = bytes => marked(bytes, () => 0);

function marked(bytes, change) {
  const changed = bytes.map(change);
  changed.failed = true;
  return changed;
}

// What an LED is sent while its rhythm lights it, by a reader that does nothing else: the brightest of a period.
function lit(chain, unit, led) {
  const key = `${unit.state.number} ${at('night').checked}`;
  if (unit.litFor !== key) {
    const place = unit.data.led * chain.channels, size = unit.kind.leds * chain.channels;
    const controller = unit.signal.controller;
    scratch.open(controller.table);
    scratch.c.night(at('night').checked ? 1 : 0);
    for (const call of unit.data.calls[unit.kind.states.indexOf(unit.state)] || []) {
      scratch.take(controller.data.buses.indexOf(unit.data.bus), message(unit.data.bus, call), 0);
    }
    unit.lit = new Uint8Array(size);
    const settled = SETTLED + FADED;
    for (let now = 0; now < settled + LAYOUT.longest; now += 10) {
      const bytes = scratch.frame(unit.data.chain, now);
      for (let i = 0; now >= settled && i < size; i++) unit.lit[i] = Math.max(unit.lit[i], bytes[place + i]);
    }
    unit.litFor = key;
  }
  return marked(unit.lit.slice(led * chain.channels, (led + 1) * chain.channels), byte => byte);
}

// Lights a signal's lamps anew, though the reader says nothing new of them.
function relight(signal) {
  for (const unit of signal.units) {
    const chain = signal.controller.chains[unit.data.chain], count = chain.channels;
    unit.lamps.forEach((lamp, i) => {
      const led = unit.data.led + i;
      light(chain, led, chain.shown.slice(led * count, (led + 1) * count));
    });
  }
}

function fail(signal, fault) {
  signal.fault = fault;
  signal.units.forEach(tellRings);
  signal.plates.forEach(plate => {
    plate.toggleAttribute('hidden', !!fault && fault.how === 'PLATE' && plate.dataset.plate === fault.what);
  });
  signal.controller.chains.forEach((chain, index) => breakChain(signal.controller, chain, index));
  signals.filter(s => s.controller === signal.controller).forEach(relight);
  tellChosen();
}

// A chain is dark from the first LED at which it is broken.
function breakChain(controller, chain, index) {
  chain.broken = Infinity;
  for (const signal of signals.filter(s => s.controller === controller && s.fault && s.fault.how === 'CHAIN')) {
    for (const unit of signal.units.filter(u => u.data.chain === index)) {
      const led = unit.data.led + signal.fault.leds[0] - unit.data.first;
      if (led >= unit.data.led && led < unit.data.led + unit.kind.leds && led < chain.broken) {
        chain.broken = led;
        chain.brokenAt = signal;
      }
    }
  }
}

function faultsOf(signal) {
  const faults = LAYOUT.sites[signal.data.site].faults;
  const choice = element(
      'select', {id: 'failed', onchange: () => fail(signal, choice.value ? faults[choice.value] : null)},
      element('option', {value: ''}, 'nothing'),
      ...faults.map((fault, i) => element('option', {value: i}, fault.words)));
  choice.value = signal.fault ? faults.indexOf(signal.fault) : '';
  return element(
      'div', {}, element('p', {}, element('label', {}, 'What has failed: ', choice)),
      element('p', {id: 'reading', role: 'status'}));
}

// What the crew now makes of a signal, in the compiler's words.
function readingOf(signal) {
  const site = LAYOUT.sites[signal.data.site], unit = signal.units[0];
  const chain = signal.controller.chains[unit.data.chain];
  const behind = chain.broken <= unit.data.led && chain.brokenAt !== signal;
  const fault = behind ? site.faults.find(f => f.how === 'CHAIN' && f.leds[0] === 0) : signal.fault;
  if (!fault) return '';
  const cause = behind ? `Dark, as the chain is broken at signal ${chain.brokenAt.data.name}. ` : '';
  const states = signal.units.map(u => u.kind.states.indexOf(u.state)).join(',');
  const readings = site.readings[states];
  if (!readings) return cause + 'What it is told to show means no aspect, so nothing can be said.';
  const reading = readings.find(one => site.faults[one[0]] === fault);
  if (!reading) return cause + 'Nothing is seen of it while this is shown.';
  const [, seen, read, verdict, cover] = reading;
  return `${cause}The crew sees ${site.seen[seen]}, and may read ${site.read[read]}. ${VERDICTS[verdict]}` +
      (cover === undefined ? '' : ` In practice it is covered: ${site.covers[cover]}.`);
}

// ---- Another table ----

async function openTable(file) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const trial = await Reader.of(readerModule);
  const reason = trial.open(bytes);
  if (reason) {
    at('opened').textContent = `${file.name} is refused: ${reason}. The table before it is kept.`;
    return;
  }
  const fits = controllers.filter(c => trial.c.units() === c.units.length && trial.c.chains() === c.chains.length &&
      c.chains.every((chain, i) => trial.frame(i, 0).length === chain.shown.length));
  const controller = fits.find(c => c.data.name + '.bin' === file.name) || fits[0];
  if (!controller) {
    at('opened').textContent = `${file.name} is sound, but for other signals than those of this page.`;
    return;
  }
  controller.table = bytes;
  controller.units.forEach(unit => { unit.litFor = ''; });
  goTo(clock.now);
  setRate();
  at('opened').textContent = `${file.name} now runs on controller ${controller.data.name}.`;
}

function takeDropped(dropped) {
  dropped.preventDefault();
  document.body.classList.remove('over');
  if (dropped.dataTransfer.files.length) openTable(dropped.dataTransfer.files[0]);
}

// ---- The beginning ----

let readerModule = null;
let scratch = null;

async function begin() {
  readerModule = await WebAssembly.compile(fromBase64(JSON.parse(at('reader').textContent)));
  scratch = await Reader.of(readerModule);
  for (const [index, data] of LAYOUT.controllers.entries()) {
    controllers.push(makeController(data, index, await Reader.of(readerModule)));
  }
  drawSignals();
  at('bus').append(...LAYOUT.buses.map((bus, i) => element('option', {value: i}, `${bus.name} (${bus.speaks})`)));
  for (let value = 0; value < 32; value++) {
    const click = () => sendAccessory(+at('bus').value, 'value', value);
    at('numbers').append(element('button', {type: 'button', onclick: click}, String(value)));
  }
  if (LAYOUT.buses.length) chooseBus();
  listen();
  setRate();
  render();
  tellAspects();
  tellTime();
  if (signals.length) choose(signals[0]);
  // Who asked for less motion starts it.
  play(!matchMedia('(prefers-reduced-motion: reduce)').matches);
  requestAnimationFrame(tick);
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

begin();
