// What fails.

// In the order of the compiler's own list.
const HOWS = ['DARK', 'DIE', 'LIT', 'UNLIT', 'PLATE', 'CHAIN', 'LAMP', 'VANE', 'STUCK'];
const VERDICTS = [
  'That permits more than was meant: a false proceed.',
  'Nobody can say whether that permits more than was meant.',
  'That permits no more than was meant.'];

// What a lamp shines that is sent some bytes, when something on its signal or its chain has failed.
function failed(lamp, bytes) {
  const {chain, unit, index} = lamp, fault = unit.signal.fault;
  if (lamp.led >= chain.broken) return darkened(bytes);
  if (!fault || fault.how === 'CHAIN' || !fault.leds.includes(unit.first + index)) return bytes;
  const die = i => lamp.source.part.order[i] === fault.what[0];
  if (fault.how === 'DARK') return darkened(bytes);
  if (fault.how === 'DIE') return marked(bytes, (byte, i) => die(i) ? 0 : byte);
  if (fault.how === 'STUCK') return marked(bytes, (byte, i) => die(i) ? Math.max(byte, +fault.what.slice(1)) : byte);
  if (fault.how === 'LAMP' || fault.how === 'VANE') return coloured(lamp, bytes);
  if (!stands(unit, fault, index)) return bytes;
  return fault.how === 'LIT' ? marked(brightest(lamp, unit.state), byte => byte) : darkened(bytes);
}

// A fault of one flasher of several says which; what flashes in another rhythm goes on.
const stands = (unit, fault, index) => index in unit.state.flashing && (!fault.what || unit.state.flashing[index] === fault.what);
const darkened = bytes => marked(bytes, () => 0);

function marked(bytes, change) {
  const changed = bytes.map(change);
  changed.failed = true;
  return changed;
}

// What a lamp shines that is stuck in another state: one that is to be dark, or one that is lit behind a vane.
function coloured(lamp, bytes) {
  const {unit} = lamp, fault = unit.signal.fault, full = Math.max(...brightest(lamp, unit.state));
  const other = brightest(lamp, unit.kind.states[+fault.what]);
  if (fault.how === 'LAMP') return full ? bytes : marked(other, byte => byte);
  const share = full ? Math.min(1, Math.max(...bytes) / full) : 0;
  return marked(other, byte => Math.round(byte * share));
}

// What a lamp is sent in a state of its unit, while its rhythm lights it, by a reader that does nothing else: the
// brightest of a period.
function brightest({chain, unit, from, to}, state) {
  const key = `${unit.kind.states.indexOf(state)} ${at('night').checked}`, place = unit.data.led * chain.channels;
  if (!unit.brightest.has(key)) {
    const most = new Uint8Array(unit.kind.leds * chain.channels);
    const controller = unit.signal.controller;
    scratch.open(controller.table);
    scratch.c.night(at('night').checked ? 1 : 0);
    for (const call of unit.data.calls[unit.kind.states.indexOf(state)] || []) {
      scratch.take(controller.data.buses.indexOf(unit.data.bus), message(unit.data.bus, call), 0);
    }
    const settled = SETTLED + FADED;
    for (let now = 0; now <= settled + LAYOUT.longest; now += 10) {
      const bytes = scratch.frame(unit.data.chain, now);
      for (let i = 0; now >= settled && i < most.length; i++) most[i] = Math.max(most[i], bytes[place + i]);
    }
    unit.brightest.set(key, most);
  }
  return unit.brightest.get(key).slice(from - place, to - place);
}

// Lights a signal's lamps anew, though the reader says nothing new of them.
function relight(signal) {
  for (const lamp of signal.units.flatMap(u => u.lamps)) light(lamp, lamp.chain.shown.slice(lamp.from, lamp.to));
}

function fail(signal, fault) {
  signal.fault = fault;
  signal.units.forEach(tellRings);
  signal.units.forEach(turnArms);
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
      const led = unit.data.led + signal.fault.leds[0] - unit.place;
      if (led >= unit.data.led && led < unit.data.led + unit.kind.leds && led < chain.broken) {
        chain.broken = led;
        chain.brokenAt = signal;
      }
    }
  }
}

const joined = parts => parts.map(part => LAYOUT.words[part]).join('');

// Faults of a signal as they stand in the page, with their words and by their names.
function readSite(site) {
  site.faults = site.faults.map(([parts, how, leds, what = '']) =>
      ({words: joined(parts), how: HOWS[how], leds, what}));
}

function faultsOf(signal) {
  const faults = LAYOUT.sites[signal.data.site].faults, lit = fault => ['LIT', 'LAMP', 'VANE', 'STUCK'].includes(fault.how);
  const options = want => faults.flatMap((fault, i) => lit(fault) === want ? element('option', {value: i}, fault.words) : []);
  const choice = element(
      'select', {id: 'failed', onchange: () => fail(signal, choice.value ? faults[choice.value] : null)},
      element('option', {value: ''}, 'nothing'),
      element('optgroup', {label: 'dark, dead or missing'}, ...options(false)),
      element('optgroup', {label: 'stuck'}, ...options(true)));
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
  let outcome;
  for (let i = 0; i < readings.length; i += 2) if (site.faults[readings[i]] === fault) outcome = site.outcomes[readings[i + 1]];
  if (!outcome) return cause + 'Nothing is seen of it while this is shown.';
  const [verdict, read, cover, ...seen] = outcome;
  return `${cause}The crew sees ${joined(seen)}, and may read ${joined([read])}. ${VERDICTS[verdict]}` +
      (joined([cover]) && ` In practice it is covered: ${joined([cover])}.`);
}
