// What is sent.
const LINES = 200; // so many are listed
let scrolls = false;

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
  return outlet && one.topic ? outlet(one) : take(one);
}

function take(one) {
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
  if (at('sent').childElementCount > LINES) at('sent').firstChild.remove();
  scrollSoon();
  tellTest();
  return count;
}

// Scrolls to the last line once a frame: many may be added in between.
function scrollSoon() {
  if (scrolls) return;
  scrolls = true;
  requestAnimationFrame(() => {
    scrolls = false;
    at('sent').scrollTop = at('sent').scrollHeight;
  });
}

const lineOf = one => element('li', {}, `${seconds(one.at)}: ${one.words}`);

function tellSent() {
  at('sent').replaceChildren(...sent.slice(-LINES).map(lineOf));
  tellTest();
}

const busWords = bus => LAYOUT.buses[bus].name;
const bytesOf = hex => Uint8Array.from(hex.match(/../g) || [], pair => parseInt(pair, 16));

function event(text) {
  const hex = text.replaceAll('.', '');
  return {high: parseInt(hex.slice(0, 8), 16), low: parseInt(hex.slice(8), 16)};
}

// What a layout's command means on its bus: a packet, an event, or topic and payload.
function message(bus, call) {
  const speaks = LAYOUT.buses[bus].speaks;
  const one = speaks === 'DCC' ? {packet: accessoryPacket(bus, call[0], call.length === 3, call[1])} :
      speaks === 'MQTT' ? {topic: utf8(call[0]), payload: utf8(call[1])} : event(call[0]);
  return {...one, bus, words: `${busWords(bus)}, ${callWords(bus, call)}`};
}

function callWords(bus, call) {
  const speaks = LAYOUT.buses[bus].speaks;
  if (speaks === 'MQTT') return call[2];
  if (speaks !== 'DCC') return 'event ' + call[0];
  return `address ${call[0]} ${call.length === 2 ? 'value ' + call[1] : call[1] ? 'normal' : 'reverse'}`;
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
  if (count === undefined) return;
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
    return sendTyped({bus, topic, payload, words: `${busWords(bus)}, ${visible(at('topic').value + ': ' + at('payload').value)}`});
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
