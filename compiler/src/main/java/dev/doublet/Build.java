package dev.doublet;

import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Board;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.table.IntelHex;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableHeader;
import dev.doublet.table.TableModel;
import dev.doublet.table.TableProof;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What came of building a layout: all files for its controllers, or none. Files are there only when
 * the layout has no errors and every table was read back and found to do what the layout says.
 */
public final class Build {
  private final Compiler.Checked<LayoutFacts> checked;
  private final SortedMap<String, byte[]> files;
  private final String refusal;

  private Build(
      Compiler.Checked<LayoutFacts> checked, SortedMap<String, byte[]> files, String refusal) {
    this.checked = checked;
    this.files = Collections.unmodifiableSortedMap(files);
    this.refusal = refusal;
  }

  /** Writes a table as bytes. */
  @FunctionalInterface
  public interface Writing {
    /**
     * The bytes of a table.
     *
     * @throws TableFault when the format cannot hold it
     */
    byte[] write(TableModel model) throws TableFault;
  }

  /** One controller's table, or why there is none. */
  private record Proven(Controller controller, byte[] table, String refusal) {}

  static Build of(Compiler.Checked<LayoutFacts> checked, Writing writing) {
    if (checked.value().isEmpty() || checked.hasErrors()) {
      return new Build(checked, new TreeMap<>(), "");
    }
    Layout layout = checked.value().get().layout();
    Rulebook book = layout.rulebook();
    List<Proven> tables =
        layout.controllers().parallelStream().map(c -> prove(book, c, writing)).toList();
    SortedMap<String, byte[]> files = new TreeMap<>();
    for (Proven one : tables) {
      if (!one.refusal().isEmpty()) {
        return new Build(checked, new TreeMap<>(), one.refusal());
      }
      String name = one.controller().name();
      String header = TableHeader.of(book, one.controller(), one.table());
      files.put(name + ".bin", one.table());
      files.put(name + ".h", header.getBytes(StandardCharsets.UTF_8));
      OptionalInt at = tableAddress(one);
      if (at.isPresent()) {
        files.put(name + ".hex", IntelHex.of(one.table(), at.getAsInt()));
      }
    }
    files.put(TableHeader.READER, TableHeader.reader());
    return new Build(checked, files, "");
  }

  /** Where a bootloader writes the table; empty where none can. */
  private static OptionalInt tableAddress(Proven one) {
    return one.table().length > Board.TABLE_ROOM
        ? OptionalInt.empty()
        : one.controller().board().map(Board::tableAddress).orElse(OptionalInt.empty());
  }

  private static Proven prove(Rulebook book, Controller controller, Writing writing) {
    try {
      byte[] table = writing.write(Lowering.lower(book, controller));
      Optional<String> difference = TableProof.firstDifference(book, controller, table);
      return new Proven(controller, table, difference.map(d -> unproven(controller, d)).orElse(""));
    } catch (TableFault fault) {
      return new Proven(controller, new byte[0], unproven(controller, fault.getMessage()));
    }
  }

  private static String unproven(Controller controller, String difference) {
    return "the table for controller "
        + controller.name()
        + " does not do what the layout says ("
        + difference
        + "), so nothing was written; this is a fault in Doublet: please report it with the layout";
  }

  /** The layout and everything said about it. */
  public Compiler.Checked<LayoutFacts> checked() {
    return checked;
  }

  /** The files, by name; none when the layout has errors or a table could not be proved. */
  public SortedMap<String, byte[]> files() {
    return files;
  }

  /** Why a sound layout was not built, as a sentence for people; empty otherwise. */
  public String refusal() {
    return refusal;
  }
}
