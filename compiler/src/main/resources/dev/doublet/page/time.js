// The time.

// Lights every lamp as the reader says it is lit now; touches only those that changed.
function render() {
  for (const controller of controllers) {
    controller.chains.forEach((chain, index) => {
      const bytes = controller.reader.frame(index, clock.now);
      for (const lamp of chain.lamps) {
        let changed = false;
        for (let i = lamp.from; i < lamp.to; i++) changed ||= bytes[i] !== chain.shown[i];
        if (changed) light(lamp, bytes.subarray(lamp.from, lamp.to));
      }
      chain.shown.set(bytes.subarray(0, chain.shown.length));
    });
  }
}

function light(lamp, bytes) {
  let key = '';
  for (const byte of bytes) key += HEX[byte];
  lamp.drawn.dataset.bytes = key;
  const look = lookOf(lamp, key, failed(lamp, bytes)), was = lamp.look;
  if (!was || was.fill !== look.fill) lamp.drawn.setAttribute('fill', look.fill);
  if (!was || was.opacity !== look.opacity) lamp.drawn.setAttribute('fill-opacity', look.opacity);
  lamp.look = look;
}

function lookOf({source, chain}, key, bytes) {
  const known = source.looks.get(bytes.failed ? '' + bytes : key);
  if (known) return known;
  const look = screen(bytes, source.part, chain.full);
  look.fill = `rgb(${look.colour})`;
  look.opacity = look.strength.toFixed(3);
  source.looks.set(bytes.failed ? '' + bytes : key, look);
  return look;
}

// Says what every signal shows.
function tellAspects() {
  for (const controller of controllers) {
    controller.units.forEach((unit, index) => {
      const number = controller.reader.c.aspect(index, clock.now);
      const state = unit.kind.states.find(s => s.number === number) ||
          {name: 'aspect ' + number, number, words: '', flashing: {}};
      if (state === unit.state && unit.told) return;
      unit.state = state;
      unit.told = true;
      const signal = unit.signal;
      tellRings(unit);
      turnArms(unit);
      signal.says.textContent = shownBy(signal, u => u.state.name);
      if (signal.fault) relight(signal);
      if (signal === chosen) tellChosen();
    });
  }
}

// Arms are drawn where they are to stand, or are stuck; how long they take is the servos'.
function turnArms(unit) {
  const arms = unit.data.arms || [], angles = arms[unit.kind.states.indexOf(unit.state)] || [], fault = unit.signal.fault;
  const stuck = fault && fault.how === 'VANE' && unit.lamps.find(lamp => unit.first + lamp.index === fault.leds[0]);
  for (let i = 0; i < angles.length; i += 2) {
    const bar = unit.signal.button.querySelector(`[data-arm="${angles[i]}"]`);
    const x = Number(bar.getAttribute('x')) + Number(bar.getAttribute('width'));
    const y = Number(bar.getAttribute('y')) + Number(bar.getAttribute('height')) / 2;
    // The bar of an arm stands before its lens and its lamp.
    const there = stuck && stuck.drawn.previousElementSibling.previousElementSibling === bar ? arms[+fault.what] : angles;
    bar.setAttribute('transform', `rotate(${there[i + 1]} ${x} ${y})`);
  }
}

// A broken ring marks a lamp that flashes.
function tellRings(unit) {
  const fault = unit.signal.fault, stuck = fault && (fault.how === 'LIT' || fault.how === 'UNLIT') ? fault.leds : [];
  for (const {ring, index} of unit.lamps) {
    const still = stuck.includes(unit.first + index) && stands(unit, fault, index);
    ring.toggleAttribute('hidden', !(index in unit.state.flashing) || still);
  }
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
    const last = sent.length ? sent[sent.length - 1].at : -SETTLED, due = clock.told - last <= SETTLED + FADED;
    tellTime();
    if (due) tellAspects();
  }
}

// Goes to any time: everything sent until then is sent anew.
function goTo(now) {
  const until = Math.max(0, Math.round(now));
  controllers.forEach(c => c.open());
  const before = sent.filter(one => one.at <= until);
  tellSwitches(before);
  const settles = LAYOUT.kinds.some(kind => kind.settles > 0);
  before.forEach((one, i) => {
    deliver(one);
    const next = Math.min(i + 1 < before.length ? before[i + 1].at : until, one.at + SETTLED + FADED);
    // In between signals settle as they did, and readers see once that nothing fades any more.
    const settled = settles && one.packet ? one.at + SETTLED : 0;
    for (clock.now = one.at; clock.now < next; clock.now += clock.now < settled ? 16 : FADED) frames();
  });
  clock.now = until;
  render();
  tellAspects();
  tellTime();
}

// Night and trains that approach, as they were after some things were sent.
function tellSwitches(before) {
  at('night').checked = before.reduce((night, one) => one.night === undefined ? night : one.night === 1, false);
  for (const unit of controllers.flatMap(c => c.units)) {
    unit.approached = before.reduce((on, one) => one.unit === unit ? one.on === 1 : on, true);
    if (unit.box) unit.box.checked = unit.approached;
  }
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
