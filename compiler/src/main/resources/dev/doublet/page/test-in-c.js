// What was sent, as a test in C.

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
