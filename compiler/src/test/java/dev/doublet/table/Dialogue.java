package dev.doublet.table;

import java.io.ByteArrayOutputStream;
import java.util.zip.CRC32C;

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
  private long now = 1_000_000;

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
      // Reasons have one order here and in C, which has one more: what the reader leaves out.
      boolean behind = fault.reason().compareTo(TableFault.Reason.NOT_SOUND) >= 0;
      reason = fault.reason().ordinal() + (behind ? 2 : 1);
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
    taken(reader.packet(bus, packet, now));
  }

  void accessory(int bus, int address, int output) {
    begin('b', bus);
    number(request, address, 2);
    number(request, output, 1);
    taken(reader.accessory(bus, address, output, now));
  }

  void extended(int bus, int address, int value) {
    begin('x', bus);
    number(request, address, 2);
    number(request, value, 1);
    taken(reader.extended(bus, address, value, now));
  }

  void topic(int bus, byte[] topic, byte[] payload) {
    begin('t', bus);
    number(request, topic.length, 1);
    number(request, payload.length, 1);
    request.writeBytes(topic);
    request.writeBytes(payload);
    taken(reader.topic(bus, topic, payload, now));
  }

  void event(int bus, long event) {
    begin('e', bus);
    number(request, event, 8);
    taken(reader.event(bus, event, now));
  }

  void night(boolean on) {
    reader.setNight(on);
    begin('n', on ? 1 : 0);
  }

  void approach(int unit, boolean on) {
    begin('d', on ? 1 : 0);
    reader.setApproach(unit, on, now);
    number(request, unit, 2);
    begin('m', 0);
    answer.writeBytes(memory());
  }

  void leds(int chain, long millis) {
    now = millis;
    byte[] bytes =
        fadingOrNull == null ? reader.leds(chain, millis) : fadingOrNull.leds(chain, millis);
    request('l', chain);
    number(request, bytes.length, 4);
    number(answer, bytes.length, 4);
    answer.writeBytes(bytes);
  }

  void tooFewBytes(int chain) {
    begin('l', chain);
    TableModel.Chain there = reader.model().chains().get(chain);
    number(request, there.leds() * there.channels() - 1, 4);
    number(answer, 0, 4);
  }

  void aspects() {
    begin('a', 0);
    for (int unit = 0; unit < reader.model().units().size(); unit++) {
      number(answer, reader.number(unit, now), 1);
    }
  }

  void test(int colour) {
    reader.setTest(colour);
    begin('y', colour);
  }

  void set(int unit, int number) {
    begin('u', number);
    number(request, unit, 2);
    number(answer, reader.set(unit, number, now) ? 1 : 0, 1);
  }

  void range(int bus, int lowest, int highest) {
    begin('r', bus);
    number(answer, lowest, 2);
    number(answer, highest, 2);
  }

  /** What a controller saves: states, the table's checksum, and a checksum of both. */
  byte[] save() {
    ByteArrayOutputStream saved = new ByteArrayOutputStream();
    int units = reader.model().units().size();
    for (int unit = 0; unit < units; unit++) {
      saved.write(reader.memory(false)[3 * unit] & 0x7F);
    }
    saved.write(table, table.length - 4, 4);
    CRC32C sum = new CRC32C();
    sum.update(saved.toByteArray());
    number(saved, sum.getValue(), 4);
    begin('k', 0);
    byte[] bytes = units == 0 ? new byte[0] : saved.toByteArray();
    number(answer, bytes.length, 4);
    answer.writeBytes(bytes);
    return bytes;
  }

  /** Brings back at once what was saved just now, if it is sound. */
  void restore(byte[] saved, boolean sound) {
    begin('v', 0);
    number(request, saved.length, 4);
    request.writeBytes(saved);
    number(answer, sound ? 1 : 0, 1);
    for (int unit = 0; sound && unit < reader.model().units().size(); unit++) {
      reader.come(unit);
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
    return reader.memory(fadingOrNull != null);
  }

  /** Time goes on, now and then by as much as a signal waits for. */
  private void begin(char what, int where) {
    now += now * 7 % 37 * (now % 9);
    request(what, where);
  }

  private void request(char what, int where) {
    request.write(what);
    request.write(where);
    number(request, now, 4);
  }

  private static void number(ByteArrayOutputStream out, long value, int bytes) {
    for (int i = 0; i < bytes; i++) {
      out.write((int) (value >>> 8 * i));
    }
  }
}
