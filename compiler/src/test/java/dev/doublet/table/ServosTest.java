package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.facts.CheckOptions;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.source.SourceFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ServosTest {
  private static final Layout LAYOUT = layout();
  private static final Controller BOX = LAYOUT.controllers().get(0);

  /** The sluice, with some of its words replaced. */
  private static Layout layout(String... words) {
    return Compiler.checkLayout(
            "examples/sluice/layout.yaml", path -> read(path, words), CheckOptions.ALL)
        .value()
        .orElseThrow()
        .layout();
  }

  private static SourceFile read(String path, String... words) {
    try {
      String text = Files.readString(Path.of("..").resolve(path));
      for (int i = 0; i < words.length; i += 2) {
        text = text.replace(words[i], words[i + 1]);
      }
      return new SourceFile(path, text);
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static TableModel model() throws TableFault {
    return Lowering.lower(LAYOUT.rulebook(), BOX);
  }

  /** 460 µs in at most 1,500 ms are 4.9 in 16 ms: 5, and so 92 steps, or 1,472 ms. */
  @Test
  void an_arm_takes_its_time_and_no_longer() throws TableFault {
    TableReader reader = new TableReader(model());
    assertThat(reader.pulse(0, 0)).isEqualTo(1180);
    reader.set(0, 3, 0);
    assertThat(reader.pulse(0, 15)).isEqualTo(1180);
    assertThat(reader.pulse(0, 16)).isEqualTo(1185);
    assertThat(reader.pulse(0, 160)).isEqualTo(1230);
    assertThat(reader.pulse(0, 1471)).isEqualTo(1635);
    assertThat(reader.pulse(0, 1472)).isEqualTo(1640);
    assertThat(reader.pulse(1, 1472)).isEqualTo(1300);
    reader.set(0, 0, 1472);
    assertThat(reader.pulse(0, 1488)).isEqualTo(1635);
    reader.set(0, 3, 1488);
    assertThat(reader.pulse(0, 1504)).isEqualTo(1640);
  }

  /**
   * 1,000 µs in at most 200 ms are 84 in each of 12 times 16 ms, of which the sixth passes 1,500.
   */
  @Test
  void a_motor_is_sent_to_its_other_end_at_once() throws TableFault {
    Layout layout =
        layout("servos: [4], pulses: {home: [1220, 1610]}", "motors: {home: 4}, coil-time: 80");
    Controller box = layout.controllers().get(0);
    TableModel lowered = Lowering.lower(layout.rulebook(), box);
    TableReader reader = new TableReader(lowered);
    assertThat(reader.pulse(4, 0)).isEqualTo(1000);
    reader.set(2, 2, 0);
    assertThat(reader.pulse(4, 80)).isLessThan(1500);
    assertThat(reader.pulse(4, 96)).isGreaterThan(1500);
    assertThat(reader.pulse(4, 200)).isEqualTo(2000);
    assertThat(TableHeader.of(layout.rulebook(), box, TableWriter.write(lowered)))
        .contains("#define BOX_SERVOS 5 ", "#define BOX_MOTORS {4, 80}\n");
    assertThat(TableHeader.of(LAYOUT.rulebook(), BOX, TableWriter.write(model())))
        .doesNotContain("MOTORS");
  }

  /** What a sketch does with the list is what the page of the table says, so it is compiled. */
  @Test
  void the_list_of_motors_is_an_array_beside_the_reader(@TempDir Path folder) throws Exception {
    Compilation.assumeCompiler("gcc");
    Layout layout =
        layout(
            "servos: [4], pulses: {home: [1220, 1610]}",
            "motors: {home: 254}, coil-time: 2000",
            "servos: [2, 3]",
            "servos: [2], motors: {calling-on: 3}, coil-time: 80");
    Controller box = layout.controllers().get(0);
    byte[] table = TableWriter.write(Lowering.lower(layout.rulebook(), box));
    Compilation compilation = new Compilation(folder);
    compilation.write("box.h", TableHeader.of(layout.rulebook(), box, table));
    compilation.write(
        "motors.c",
        """
        #define DOUBLET_SERVOS
        #include <stdio.h>
        #include "doublet_reader.h"
        #include "box.h"
        static const struct { uint8_t channel; uint16_t milliseconds; } motors[] = {BOX_MOTORS};
        int main(void) {
          static uint8_t state[BOX_STATE_BYTES];
          static struct doublet_servo at[BOX_SERVOS];
          struct doublet box;
          size_t i;
          uint8_t s;
          if (doublet_open(&box, box_table, sizeof box_table, state, sizeof state) != DOUBLET_OK) return 1;
          if (doublet_servos(&box) != BOX_SERVOS) return 2;
          for (i = 0; i < sizeof motors / sizeof *motors; i++)
            for (s = 0; s < BOX_SERVOS; s++)
              if (doublet_channel(&box, s) == motors[i].channel)
                printf("%u %u %u\\n", motors[i].channel, motors[i].milliseconds, doublet_pulse(&box, s, at + s, 0));
          return 0;
        }
        """);
    compilation.compile(
        "gcc",
        "-std=c99",
        "-Wall",
        "-Wextra",
        "-Wconversion",
        "-pedantic",
        "-Werror",
        "-o",
        "motors",
        "motors.c");
    assertThat(compilation.compile(folder.resolve("motors").toString()))
        .isEqualTo("3 80 1000\n254 2000 1000\n");
  }

  /** From 1,000 to 2,000 µs, some of them in times that are no whole number of steps of 16 ms. */
  @ParameterizedTest
  @ValueSource(ints = {200, 207, 500, 1000, 1007, 1500, 2400, 3999, 4000})
  void an_arm_stands_when_its_travel_is_over(int travel) throws TableFault {
    Layout layout =
        layout(
            "travel: 1500",
            "travel: " + travel,
            ", pulses: {home: [1180, 1640]",
            ", pulses: {home: [1000, 2000]");
    for (int begun = 0; begun < 16; begun++) {
      TableReader reader =
          new TableReader(Lowering.lower(layout.rulebook(), layout.controllers().get(0)));
      assertThat(reader.pulse(0, begun)).isEqualTo(1000);
      reader.set(0, 3, begun);
      assertThat(reader.pulse(0, begun + travel / 2)).isBetween(1400, 1650);
      assertThat(reader.pulse(0, begun + travel)).isEqualTo(2000);
    }
    byte[] table =
        TableWriter.write(Lowering.lower(layout.rulebook(), layout.controllers().get(0)));
    assertThat(TableProof.firstDifference(layout.rulebook(), layout.controllers().get(0), table))
        .isEmpty();
  }

  @Test
  void a_table_that_moves_arms_otherwise_is_not_proved() throws TableFault {
    TableModel model = model();
    assertThat(difference(model.servos())).isEqualTo("none");
    for (int i = 0; i < model.servos().size(); i++) {
      TableModel.Servo servo = model.servos().get(i);
      List<Integer> other = new ArrayList<>(servo.pulses());
      other.set(0, other.get(0) + 1);
      assertThat(difference(with(i, servo.channel(), servo.unit(), servo.step(), other)))
          .contains("channel " + servo.channel());
      for (int step : new int[] {servo.step() - 1, servo.step() + 2}) {
        assertThat(difference(with(i, servo.channel(), servo.unit(), step, servo.pulses())))
            .contains("channel " + servo.channel());
      }
      assertThat(difference(with(i, servo.channel() + 90, servo.unit(), 1, servo.pulses())))
          .isNotEqualTo("none");
    }
    assertThat(difference(model.servos().subList(1, 5))).isEqualTo("other servos move arms");
    assertThat(difference(List.of())).isEqualTo("other servos move arms");
  }

  private static List<TableModel.Servo> with(
      int at, int channel, int unit, int step, List<Integer> pulses) throws TableFault {
    List<TableModel.Servo> servos = new ArrayList<>(model().servos());
    servos.set(at, new TableModel.Servo(channel, unit, step, pulses));
    return servos;
  }

  private static String difference(List<TableModel.Servo> servos) throws TableFault {
    TableModel m = model();
    byte[] table =
        TableWriter.write(
            new TableModel(
                m.edition(),
                m.colours(),
                m.buses(),
                m.chains(),
                m.rhythms(),
                m.flashing(),
                m.kinds(),
                m.units(),
                servos));
    return TableProof.firstDifference(LAYOUT.rulebook(), BOX, table).orElse("none");
  }

  /** Random commands and askings, up to four seconds apart, give the same pulses in C. */
  @Test
  void the_reader_in_c_moves_arms_as_the_one_in_java(@TempDir Path folder) throws Exception {
    Compilation.assumeCompiler("gcc");
    Compilation compilation = new Compilation(folder);
    byte[] table = TableWriter.write(model());
    TableReader reader = TableReader.open(table);
    Random random = new Random(7);
    StringBuilder asked = new StringBuilder();
    StringBuilder expected = new StringBuilder();
    long now = random.nextInt(1 << 20);
    for (int i = 0; i < 4_000; i++) {
      now += random.nextInt(random.nextBoolean() ? 40 : 700);
      int unit = random.nextInt(4);
      int number = random.nextInt(5);
      int servo = random.nextInt(5);
      if (unit < 3) {
        reader.set(unit, number, now);
      }
      asked.append("{" + unit + "," + number + "," + servo + "," + now + "u},\n");
      for (int all = 0; all < 5; all++) {
        expected.append(reader.pulse(all, now)).append(all < 4 ? " " : "\n");
      }
    }
    StringBuilder bytes = new StringBuilder();
    for (byte b : table) {
      bytes.append(b & 0xFF).append(',');
    }
    compilation.write(
        "servos.c",
        """
        #define DOUBLET_SERVOS
        #include <stdio.h>
        #include "doublet_reader.h"
        static const uint8_t table[] = {%s};
        static const struct { uint16_t unit; uint8_t number, servo; uint32_t now; } asked[] = {%s};
        int main(void) {
          static uint8_t state[100];
          static struct doublet_servo at[5];
          struct doublet d;
          size_t i;
          uint8_t s;
          if (doublet_open(&d, table, sizeof table, state, sizeof state) != DOUBLET_OK) return 1;
          if (doublet_servos(&d) != 5 || doublet_channel(&d, 4) != 4 || doublet_pulse(&d, 5, at, 0)) return 2;
          for (i = 0; i < sizeof asked / sizeof *asked; i++) {
            doublet_set(&d, asked[i].unit, asked[i].number, asked[i].now);
            for (s = 0; s < 5; s++) printf(s < 4 ? "%%u " : "%%u\\n", doublet_pulse(&d, s, at + s, asked[i].now));
          }
          return 0;
        }
        """
            .formatted(bytes, asked));
    compilation.compile(
        "gcc",
        "-std=c99",
        "-O1",
        "-Wall",
        "-Wextra",
        "-Wconversion",
        "-Werror",
        "-fsanitize=undefined",
        "-fno-sanitize-recover=all",
        "-o",
        "servos",
        "servos.c");

    assertThat(compilation.compile(folder.resolve("servos").toString()))
        .isEqualTo(expected.toString());
  }
}
