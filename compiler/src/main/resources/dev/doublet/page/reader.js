// The reader of tables that controllers run, as WebAssembly: one instance is one controller.
const REASONS = [
  'sound',
  'too few bytes for a table',
  'not a table: other first bytes',
  'a format version this reader does not know',
  'cut short, or followed by more',
  'damaged: the checksum does not fit',
  'it needs what this reader leaves out',
  'the checksum fits, but the contents do not add up',
  'too little memory for the state of the signals'];

class Reader {
  static async of(module) {
    return new Reader((await WebAssembly.instantiate(module)).exports);
  }

  constructor(exports) {
    this.c = exports;
    this.memory = new Uint8Array(exports.memory.buffer);
    this.sentTo = exports.leds();
  }

  // Opens a table: the reason why it is refused, or nothing.
  open(bytes) {
    this.memory.set(bytes.subarray(0, 65535), this.c.table());
    this.c.night(0);
    const reason = this.c.open(bytes.length);
    return reason ? REASONS[reason] : '';
  }

  // Takes a message on one of its buses; returns how many signals it was for.
  take(bus, message, now) {
    if (message.packet) {
      this.memory.set(message.packet, this.c.command());
      return this.c.packet(bus, message.packet.length, now);
    }
    if (message.topic) {
      const size = message.topic.length;
      this.memory.set(message.topic, this.c.command());
      this.memory.set(message.payload, this.c.command() + size);
      return this.c.topic(bus, size, message.payload.length, now);
    }
    return this.c.event(bus, message.high, message.low, now);
  }

  // What a chain is sent. The bytes are the reader's own, and change with its next frame.
  frame(chain, now) {
    return this.memory.subarray(this.sentTo, this.sentTo + this.c.frame(chain, now));
  }
}
