package dev.doublet.table;

import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Visible;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Writes a table as a C header: its bytes, how much memory it needs, and names for the numbers of
 * its signals, chains and buses. The same table gives the same text.
 */
public final class TableHeader {
  /** The name under which the reader of tables is written. */
  public static final String READER = "doublet_reader.h";

  private static final int BYTES_A_LINE = 12;

  private final StringBuilder text = new StringBuilder();
  private final Set<String> used = new HashSet<>();
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
    line("#define %s %d /* version of the table's format */", unused("FORMAT"), table[4]);
    line("#define %s %d /* of the table, in program memory */", unused("BYTES"), needs.flash());
    line("#define %s %d", unused("UNITS"), controller.units().size());
    String stateBytes = unused("STATE_BYTES");
    int units = controller.units().size();
    line("#define %s (%d * DOUBLET_UNIT) /* for doublet_open */", stateBytes, units);
    line("#define %s %d", unused("CHAINS"), controller.chains().size());
    line(
        "#define %s %d /* reader, state and the bytes of every chain */",
        unused("RAM"), needs.ram());
    numbers(controller);
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
    line("/* Buses, as the reader numbers them. */");
    List<Bus> buses = Lowering.buses(controller);
    for (int i = 0; i < buses.size(); i++) {
      line("#define %s %d", unused("BUS_" + identifier(buses.get(i).name())), i);
    }
    line("");
    line("/* Chains, and the bytes sent down each. */");
    for (Chain chain : controller.chains()) {
      String name = identifier(chain.name());
      line("#define %s %d", unused("CHAIN_" + name), chain.index());
      int bytes = chain.leds() * chain.part().channels();
      line("#define %s %d", unused("BYTES_OF_CHAIN_" + name), bytes);
    }
    line("");
    line("/* Signals, and heads commanded by themselves. */");
    List<Unit> units = Lowering.order(controller);
    for (int i = 0; i < units.size(); i++) {
      line(
          "#define %s %d%s",
          unused("SIGNAL_" + identifier(units.get(i).name())),
          i,
          units.get(i).kind().onApproach() ? " /* lit on approach */" : "");
    }
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

  /** A name no other number has: names that differ in punctuation alone get a number. */
  private String unused(String name) {
    String found = prefix + "_" + name;
    for (int i = 2; !used.add(found); i++) {
      found = prefix + "_" + name + "_" + i;
    }
    return found;
  }

  private static String identifier(String name) {
    StringBuilder found = new StringBuilder();
    for (char c : name.toUpperCase(Locale.ROOT).toCharArray()) {
      found.append(c < 128 && Character.isLetterOrDigit(c) ? c : '_');
    }
    return found.isEmpty() ? "_" : found.toString();
  }

  /** A name that can neither end the comment it stands in nor begin another. */
  private static String comment(String name) {
    return Visible.line(name).replace("*/", "* /").replace("/*", "/ *");
  }

  private void line(String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append('\n');
  }
}
