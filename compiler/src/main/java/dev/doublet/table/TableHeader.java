package dev.doublet.table;

import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Spelling;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Visible;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * Writes a table as a C header: its bytes, how much memory it needs, and names for the numbers of
 * its signals, chains and buses. The same table gives the same text.
 */
public final class TableHeader {
  /** The name under which the reader of tables is written. */
  public static final String READER = "doublet_reader.h";

  private static final int BYTES_A_LINE = 12;

  private final StringBuilder text = new StringBuilder();
  private final String prefix;

  private TableHeader(String prefix) {
    this.prefix = prefix;
  }

  /** The reader of tables, in C. */
  public static byte[] reader() {
    try (InputStream in = TableHeader.class.getResourceAsStream("/dev/doublet/" + READER)) {
      if (in == null) {
        throw new IllegalStateException("the reader is missing from this jar");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The text of the header.
   *
   * @param table the controller's table
   */
  public static String of(Rulebook book, Controller controller, byte[] table) {
    return new TableHeader(Controller.prefix(controller.name())).write(book, controller, table);
  }

  private String write(Rulebook book, Controller controller, byte[] table) {
    TableNeeds needs = TableNeeds.of(controller, table);
    line("/* SPDX-License-Identifier: 0BSD OR Apache-2.0 */");
    line("/*");
    line(
        " * Table of controller \"%s\", after edition %d of",
        comment(controller.name()), book.edition());
    line(
        " * \"%s\". Made by the Doublet compiler: change the layout, not this file.",
        comment(book.title()));
    line(" * Read it with %s.", READER);
    line(" */");
    line("#ifndef %s_TABLE_H", prefix);
    line("#define %s_TABLE_H", prefix);
    line("");
    line("#include <stdint.h>");
    line("#ifdef __AVR__");
    line("#include <avr/pgmspace.h>");
    line("#endif");
    line("");
    line("#define %s %d /* version of the table's format */", prefix + "_FORMAT", table[4]);
    line("#define %s %d /* of the table, in program memory */", prefix + "_BYTES", needs.flash());
    line(
        "#define %s 0x%08Xu /* the same as at the end of the table */",
        prefix + "_CHECKSUM", checksum(table));
    line("#define %s %d", prefix + "_UNITS", controller.units().size());
    String stateBytes = prefix + "_STATE_BYTES";
    int units = controller.units().size();
    line("#define %s (%d * DOUBLET_UNIT) /* for doublet_open */", stateBytes, units);
    line("#define %s %d", prefix + "_CHAINS", controller.chains().size());
    line(
        "#define %s %d /* reader, state and the bytes of %s */",
        prefix + "_RAM",
        needs.ram(),
        controller.runsOurs() ? "what is sent at once" : "every chain");
    numbers(controller);
    servos(controller);
    line("");
    line("static const uint8_t %s_table[%d]", prefix.toLowerCase(Locale.ROOT), table.length);
    line("#ifdef __AVR__");
    line("    PROGMEM");
    line("#endif");
    line("    = {");
    bytes(table);
    line("};");
    line("");
    line("#endif");
    return text.toString();
  }

  private void numbers(Controller controller) {
    line("");
    line("/* Buses, as the reader numbers them; of MQTT, what stands before every topic. */");
    List<Bus> buses = Lowering.buses(controller);
    for (int i = 0; i < buses.size(); i++) {
      Bus bus = buses.get(i);
      number("BUS_", bus.name(), i, "");
      if (bus.speaks() == Speaks.MQTT) {
        String topics = prefix + "_TOPICS_OF_BUS_" + Spelling.of(bus.name());
        line("#define %s %s", topics, Spelling.string(bus.topics()));
      }
    }
    line("");
    line("/* Chains, and the bytes sent down each. */");
    for (Chain chain : controller.chains()) {
      number("CHAIN_", chain.name(), chain.index(), "");
      int bytes = chain.leds() * chain.part().channels();
      line("#define %s_BYTES_OF_CHAIN_%s %d", prefix, Spelling.of(chain.name()), bytes);
    }
    line("");
    line("/* Signals, and heads commanded by themselves; of MQTT, their topics. */");
    List<Unit> units = Lowering.order(controller);
    for (int i = 0; i < units.size(); i++) {
      Unit unit = units.get(i);
      number("SIGNAL_", unit.name(), i, unit.kind().onApproach() ? ", lit on approach" : "");
      if (!unit.command().topic().isEmpty()) {
        String topic = prefix + "_TOPIC_OF_SIGNAL_" + Spelling.of(unit.name());
        line("#define %s %s", topic, Spelling.string(unit.command().topic()));
      }
    }
  }

  private void servos(Controller controller) {
    List<Servo> servos = controller.units().stream().flatMap(u -> u.servos().stream()).toList();
    if (servos.isEmpty()) {
      return;
    }
    line("");
    line(
        "#define %s_SERVOS %d /* arms that servos or motors move: define DOUBLET_SERVOS */",
        prefix, servos.size());
    List<Servo> motors =
        servos.stream()
            .filter(Servo::isMotor)
            .sorted(Comparator.comparingInt(Servo::channel))
            .toList();
    if (!motors.isEmpty()) {
      line(
          "/* Channels of motors with two ends, and how long current flows in a coil, in ms: in that");
      line(
          " * of the first end when the pulse falls below %d us, else in the other; once at the start,",
          Servo.MIDDLE);
      line(" * as nobody knows where they stand. */");
      line(
          "#define %s_MOTORS %s",
          prefix,
          motors.stream()
              .map(m -> Words.say("{%d, %d}", m.channel(), m.coilTime().getAsInt()))
              .collect(Collectors.joining(", ")));
    }
  }

  private static int checksum(byte[] table) {
    return ByteBuffer.wrap(table).order(ByteOrder.LITTLE_ENDIAN).getInt(table.length - 4);
  }

  /** A number with the name that it stands for. */
  private void number(String sort, String name, int number, String more) {
    line(
        "#define %s_%s%s %d /* %s%s */",
        prefix, sort, Spelling.of(name), number, comment(name), more);
  }

  private void bytes(byte[] table) {
    for (int start = 0; start < table.length; start += BYTES_A_LINE) {
      text.append("   ");
      for (int i = start; i < Math.min(start + BYTES_A_LINE, table.length); i++) {
        text.append(String.format(Locale.ROOT, " 0x%02X,", table[i] & 0xFF));
      }
      text.append('\n');
    }
  }

  /** A name that can neither end the comment it stands in nor begin another. */
  private static String comment(String name) {
    return Visible.line(name).replace("*/", "* /").replace("/*", "/ *");
  }

  private void line(String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append('\n');
  }
}
