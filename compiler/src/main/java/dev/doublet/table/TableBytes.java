package dev.doublet.table;

import dev.doublet.table.TableFault.Reason;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.zip.CRC32C;

/** The bytes of a table whose checksum fits, and what was found at which of them. */
final class TableBytes {
  private static final int SHORTEST = 34;
  private static final int VERSION = 3;
  private static final int CHECKSUM = 4;

  private final byte[] bytes;
  private final Pieces pieces = new Pieces(new TreeMap<>());
  private int firstPiece;

  private TableBytes(byte[] bytes) {
    this.bytes = bytes.clone();
  }

  /**
   * What was found where.
   *
   * @param found for each section, where its pieces begin and how many bytes each takes
   */
  record Pieces(SortedMap<String, SortedMap<Integer, Integer>> found) {
    /** How many bytes the pieces of a section take. */
    int size(String section) {
      return found.getOrDefault(section, new TreeMap<>()).values().stream()
          .mapToInt(size -> size)
          .sum();
    }
  }

  static TableBytes open(byte[] bytes) throws TableFault {
    if (bytes.length < SHORTEST) {
      throw new TableFault(
          Reason.TOO_SHORT, String.format(Locale.ROOT, "%d bytes are too few", bytes.length));
    }
    if (bytes[0] != 'D' || bytes[1] != 'B' || bytes[2] != 'L' || bytes[3] != 'T') {
      throw new TableFault(Reason.NOT_A_TABLE, "the first four bytes are not DBLT");
    }
    if (bytes[4] != VERSION) {
      throw new TableFault(
          Reason.OTHER_VERSION,
          String.format(
              Locale.ROOT,
              "format version %d; this reader knows version %d alone",
              bytes[4] & 0xFF,
              VERSION));
    }
    int length = (bytes[6] & 0xFF) + 256 * (bytes[7] & 0xFF);
    if (length != bytes.length) {
      throw new TableFault(
          Reason.WRONG_LENGTH,
          String.format(
              Locale.ROOT, "the header says %d bytes, and there are %d", length, bytes.length));
    }
    int stored = 0;
    for (int i = 1; i <= CHECKSUM; i++) {
      stored = stored << 8 | bytes[length - i] & 0xFF;
    }
    CRC32C sum = new CRC32C();
    sum.update(bytes, 0, length - CHECKSUM);
    if (stored != (int) sum.getValue()) {
      throw new TableFault(Reason.WRONG_CHECKSUM, "the checksum does not fit; some byte is wrong");
    }
    TableBytes table = new TableBytes(bytes);
    table.note("checksum", length - CHECKSUM, CHECKSUM);
    return table;
  }

  Pieces pieces() {
    return pieces;
  }

  /** Says where the sections end; no piece begins before. */
  void piecesFrom(int place) {
    firstPiece = place;
  }

  /** Notes a piece that an offset points to, which must lie behind the sections. */
  void piece(String section, int place, int size) throws TableFault {
    TableFault.require(
        place >= firstPiece && place + size <= bytes.length - CHECKSUM,
        "a piece lies among the sections or outside the table");
    note(section, place, size);
  }

  void note(String section, int place, int size) {
    pieces.found().computeIfAbsent(section, s -> new TreeMap<>()).put(place, size);
  }

  int u8(int place) throws TableFault {
    TableFault.require(
        place >= 0 && place < bytes.length - CHECKSUM, "a place lies outside the table");
    return bytes[place] & 0xFF;
  }

  int u16(int place) throws TableFault {
    return (int) number(place, 2);
  }

  long number(int place, int size) throws TableFault {
    long value = 0;
    for (int i = 0; i < size; i++) {
      value |= (long) u8(place + i) << 8 * i;
    }
    return value;
  }

  List<Integer> list(int place, int count) throws TableFault {
    List<Integer> list = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      list.add(u8(place + i));
    }
    return list;
  }
}
