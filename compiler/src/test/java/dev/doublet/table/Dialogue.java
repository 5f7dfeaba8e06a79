package dev.doublet.table;

import java.io.ByteArrayOutputStream;

/**
 * The same commands for the reader in C and the one in Java: a request for the host program, and
 * the answer that it must give.
 */
final class Dialogue {
  private final byte[] table;
  private final TableReader reader;
  private final FadingReader fadingOrNull;
  private final ByteArrayOutputStream request = new ByteArrayOutputStream();
  private final ByteArrayOutputStream answer = new ByteArrayOutputStream();

  /** Begins with a table, which both open or both refuse. */
  Dialogue(byte[] table) {
    this(table, false);
  }

  /**
   * Begins likewise.
   *
   * @param fades true for a host program whose lamps fade
   */
  Dialogue(byte[] table, boolean fades) {
    this.table = table;
    TableReader opened = null;
    int reason = 0;
    try {
      opened = TableReader.open(table);
    } catch (TableFault fault) {
      reason = fault.reason().ordinal() + 1;
    }
    this.reader = opened;
    this.fadingOrNull = fades && opened != null ? new FadingReader(opened) : null;
    number(answer, reason, 1);
  }

  boolean isOpen() {
    return reader != null;
  }

  TableReader reader() {
    return reader;
  }

  void packet(int bus, byte[] packet) {
    begin('p', bus);
    number(request, packet.length, 1);
    request.writeBytes(packet);
    taken(reader.packet(bus, packet));
  }

  void accessory(int bus, int address, int output) {
    begin('b', bus);
    number(request, address, 2);
    number(request, output, 1);
    taken(reader.accessory(bus, address, output));
  }

  void extended(int bus, int address, int value) {
    begin('x', bus);
    number(request, address, 2);
    number(request, value, 1);
    taken(reader.extended(bus, address, value));
  }

  void topic(int bus, byte[] topic, byte[] payload) {
    begin('t', bus);
    number(request, topic.length, 1);
    number(request, payload.length, 1);
    request.writeBytes(topic);
    request.writeBytes(payload);
    taken(reader.topic(bus, topic, payload));
  }

  void event(int bus, long event) {
    begin('e', bus);
    number(request, event, 8);
    taken(reader.event(bus, event));
  }

  void night(boolean on) {
    reader.setNight(on);
    begin('n', on ? 1 : 0);
  }

  void approach(int unit, boolean on) {
    reader.setApproach(unit, on);
    begin('d', on ? 1 : 0);
    number(request, unit, 2);
    begin('m', 0);
    answer.writeBytes(memory());
  }

  void leds(int chain, long millis) {
    byte[] bytes =
        fadingOrNull == null ? reader.leds(chain, millis) : fadingOrNull.leds(chain, millis);
    begin('l', chain);
    number(request, millis, 4);
    number(request, bytes.length, 4);
    number(answer, bytes.length, 4);
    answer.writeBytes(bytes);
  }

  void tooFewBytes(int chain) {
    begin('l', chain);
    number(request, 0, 4);
    number(request, reader.leds(chain, 0).length - 1, 4);
    number(answer, 0, 4);
  }

  void aspects() {
    begin('a', 0);
    for (int unit = 0; unit < reader.model().units().size(); unit++) {
      number(answer, reader.number(unit), 1);
    }
  }

  void sum(byte[] bytes, int expected) {
    begin('s', 0);
    number(request, bytes.length, 1);
    request.writeBytes(bytes);
    number(answer, expected, 4);
  }

  /** What to send to the host program. */
  byte[] request() {
    return request(table);
  }

  /** The same commands for another table. */
  byte[] request(byte[] other) {
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    number(whole, 4 + other.length + request.size(), 4);
    number(whole, other.length, 4);
    whole.writeBytes(other);
    whole.writeBytes(request.toByteArray());
    return whole.toByteArray();
  }

  byte[] answer() {
    return answer.toByteArray();
  }

  private void taken(int units) {
    number(answer, units, 2);
    begin('m', 0);
    answer.writeBytes(memory());
  }

  private byte[] memory() {
    return fadingOrNull == null ? reader.memory() : fadingOrNull.memory();
  }

  private void begin(char what, int where) {
    request.write(what);
    request.write(where);
  }

  private static void number(ByteArrayOutputStream out, long value, int bytes) {
    for (int i = 0; i < bytes; i++) {
      out.write((int) (value >>> 8 * i));
    }
  }
}
