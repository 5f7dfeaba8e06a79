package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Tables under a checksum that fits, made to cost as much as they can: whatever the reader in C
 * opens costs no call more than honest tables of as many bytes and signals may. Cost is counted in
 * bytes read, of which every round of a loop reads some.
 */
@Tag("slow")
class HostileTableTest {
  private static final int SIZE = 28_672;

  /** What a signal may cost a command: its kind, and up to 255 answers passed over. */
  private static final int ANSWERS = 300;

  /** What a record may cost: it is read once, in opening twice. */
  private static final int RECORD = 4;

  private static final int UNIT = 16;

  /** Sixteen rhythms, and the chain. */
  private static final int FRAME = 130;

  private static final int LED = 40;

  @TempDir private Path folder;

  @Test
  void noCallCostsMoreThanBytesAndSignalsMay() throws Exception {
    Compilation.assumeCompiler("gcc");
    Compilation compilation = new Compilation(folder);
    compilation.compile("gcc", "-std=gnu99", "-O2", "-o", "steps", "steps.c");
    List<byte[]> tables = new ArrayList<>(shapes());
    Random random = new Random(21);
    for (byte[] shape : shapes()) {
      for (int i = 0; i < 60; i++) {
        tables.add(changed(shape, random));
      }
    }
    int opened = 0;
    List<String> costs = costs(tables);
    assertThat(costs).hasSameSizeAs(tables);
    for (int i = 0; i < tables.size(); i++) {
      int size = tables.get(i).length;
      long[] cost = costs(costs.get(i));
      long units = cost[1];
      opened += cost[0] == 0 ? 1 : 0;
      String table = "table " + i + ": " + costs.get(i);
      assertThat(cost[2]).as(table).isLessThanOrEqualTo(RECORD * (size + UNIT * 8_192L));
      assertThat(cost[3]).as(table).isLessThanOrEqualTo(RECORD * size + (ANSWERS + UNIT) * units);
      assertThat(cost[4]).as(table).isLessThanOrEqualTo(FRAME);
      assertThat(cost[5]).as(table).isLessThanOrEqualTo(LED);
      assertThat(cost[6]).as(table).isLessThanOrEqualTo(RECORD * size + UNIT * units);
    }
    assertThat(opened).isGreaterThan(100);
  }

  private static long[] costs(String line) {
    String[] parts = line.split(" ");
    long[] costs = new long[parts.length];
    for (int i = 0; i < parts.length; i++) {
      costs[i] = Long.parseLong(parts[i]);
    }
    return costs;
  }

  private List<String> costs(List<byte[]> tables) throws IOException, InterruptedException {
    ByteArrayOutputStream in = new ByteArrayOutputStream();
    for (byte[] table : tables) {
      in.write(table.length);
      in.write(table.length >> 8);
      in.write(table.length >> 16);
      in.write(0);
      in.writeBytes(table);
    }
    Files.write(folder.resolve("in"), in.toByteArray());
    Process process =
        new ProcessBuilder(folder.resolve("steps").toString())
            .redirectInput(folder.resolve("in").toFile())
            .redirectErrorStream(true)
            .start();
    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).isZero();
    return out.lines().toList();
  }

  private static byte[] changed(byte[] shape, Random random) {
    byte[] table = shape.clone();
    for (int change = 1 + random.nextInt(4); change > 0; change--) {
      int at = random.nextInt(3) > 0 ? 8 + random.nextInt(72) : 8 + random.nextInt(SIZE - 12);
      table[at] = (byte) (random.nextBoolean() ? random.nextInt(256) : table[at] ^ 1);
    }
    Samples.seal(table);
    return table;
  }

  /** One table for each way to make work. */
  private static List<byte[]> shapes() {
    List<byte[]> shapes = new ArrayList<>();
    for (int carries = 0; carries < 3; carries++) {
      for (int kind = 0; kind < 4; kind++) {
        shapes.add(new Shape(carries, 1, 1, kind).table());
      }
    }
    shapes.add(new Shape(0, 200, 1, 0).table());
    shapes.add(new Shape(0, 1, 200, 1).table());
    shapes.add(new Shape(2, 100, 100, 2).table());
    return shapes;
  }

  /**
   * A table of 28 KiB with one kind, 255 answers to it that are never given, and places and records
   * to the end.
   *
   * @param carries what its buses carry
   * @param buses how many, all with one index
   * @param chains how many, all with one list of places
   * @param work 0: units in long runs; 1: each unit behind dark LEDs; 2: dark LEDs alone; 3: units
   *     of no LED
   */
  private record Shape(int carries, int buses, int chains, int work) {
    byte[] table() {
      byte[] table = new byte[SIZE];
      int chainsAt = 30 + 11 * buses;
      int kindsAt = chainsAt + 9 * chains;
      int answers = kindsAt + 11 + 3;
      int places = answers + 1 + 255;
      int placesEnd = places + (SIZE - places) / 3;
      int units = places(table, places, placesEnd);
      System.arraycopy("DBLT\3".getBytes(StandardCharsets.US_ASCII), 0, table, 0, 5);
      u16(table, 6, SIZE);
      u16(table, 10, units);
      table[12] = (byte) buses;
      table[13] = (byte) chains;
      table[16] = 1;
      table[17] = 1;
      for (int i = 0; i < 5; i++) {
        u16(table, 18 + 2 * i, i == 0 ? chainsAt : i < 4 ? kindsAt : kindsAt + 11);
      }
      int size = new int[] {5, 7, 14}[carries];
      int records = records(table, placesEnd, units, size);
      for (int bus = 0; bus < buses; bus++) {
        int at = 30 + 11 * bus;
        table[at] = (byte) carries;
        table[at + 1] = (byte) (carries == 0 ? 8 : 0);
        table[at + 4] = 2;
        u16(table, at + 6, placesEnd);
        u16(table, at + 8, records);
        table[at + 10] = (byte) 255;
      }
      for (int chain = 0; chain < chains; chain++) {
        int at = chainsAt + 9 * chain;
        u16(table, at, 65_535 / chains);
        table[at + 2] = 3;
        u16(table, at + 3, answers);
        u16(table, at + 5, places);
        u16(table, at + 7, chain == 0 ? 0 : units);
      }
      byte[] kind = {(byte) (work == 3 ? 0 : 1), 1, 0, 0, 0, 0, 0, 1, 0, 0, 0};
      kind[6] = (byte) (carries == 0 ? 0 : carries + 2);
      System.arraycopy(kind, 0, table, kindsAt, kind.length);
      u16(table, kindsAt + 2, kindsAt + 13);
      u16(table, kindsAt + 4, answers);
      table[answers] = (byte) 255;
      Samples.seal(table);
      return table;
    }

    private int places(byte[] table, int start, int end) {
      int units = 0;
      int at = start;
      while (at < end - 8 && units <= 8_000) {
        if (work == 2) {
          table[at] = (byte) 128;
          u16(table, at + 1, 1);
          at += 3;
        } else if (work == 1) {
          table[at] = (byte) 128;
          u16(table, at + 1, 1);
          table[at + 3] = 1;
          at += 6;
          units++;
        } else {
          table[at] = 127;
          at += 3;
          units += 127;
        }
      }
      return units;
    }

    /** Records of listed addresses, which count for no units, to the end. */
    private static int listed(byte[] table, int start, int before) {
      int records = before;
      for (int at = start; at + 5 <= SIZE - 4; at += 5, records++) {
        u16(table, at, Math.min(2_047, 6 + (records - before) / 3));
        u16(table, at + 2, 0x8000 | (records - before) % 3);
      }
      return records;
    }

    /** Records of the same key: as many units as there are, then such as count for none. */
    private int records(byte[] table, int start, int units, int size) {
      int left = units;
      int records = 0;
      for (int at = start; at + size <= SIZE - 4; at += size, records++) {
        if (carries == 0) {
          if (left == 0) {
            return listed(table, at, records);
          }
          int here = Math.min(32, left);
          u16(table, at, 5 | here - 1 << 11);
          u16(table, at + 2, units - left);
          left -= here;
        } else if (carries == 1) {
          if (left == 0) {
            return records;
          }
          left--;
        } else {
          table[at + 10] = (byte) Math.min(255, left);
          left -= Math.min(255, left);
        }
      }
      return records;
    }

    private static void u16(byte[] table, int at, int number) {
      table[at] = (byte) number;
      table[at + 1] = (byte) (number >> 8);
    }
  }
}
