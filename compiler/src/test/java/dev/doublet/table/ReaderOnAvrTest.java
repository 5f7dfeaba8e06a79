package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Controller;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("slow")
class ReaderOnAvrTest {

  @Test
  void aTableInProgramMemoryGivesTheSameBytesAsTheDecoderInJava(@TempDir Path folder)
      throws Exception {
    byte[] table = Samples.write(Samples.everyMode());
    Stream<String> printed = run(folder, "sketch.c", Samples.everyMode(), table);

    TableReader reader = TableReader.open(table);
    long time = 123_000;
    String before = hex(reader.leds(0, 0));
    reader.extended(2, 4, 3, time);
    reader.packet(2, HexFormat.of().parseHex("817307f5"), time);
    reader.topic(1, utf8("brackwater/home"), utf8("Aspect 2"), time);
    reader.event(0, -1, time);
    assertThat(printed.filter(w -> w.length() > 50))
        .containsExactly(
            before,
            hex(reader.leds(0, 123_000)),
            hex(reader.leds(0, 123_456)),
            hex(reader.leds(1, 123_456)));
  }

  @Test
  void fadesOnTheChipGiveTheSameBytesAsTheDecoderInJava(@TempDir Path folder) throws Exception {
    byte[] table = Samples.write(Samples.everyGlow());
    Stream<String> printed = run(folder, "glow.c", Samples.everyGlow(), table);

    TableReader reader = TableReader.open(table);
    FadingReader fading = new FadingReader(reader);
    List<String> frames = new ArrayList<>();
    for (int time = 100_000; time < 103_000; time += 50) {
      frames.add(hex(fading.leds(0, time)));
      if (time % 1000 == 0) {
        reader.extended(0, 4, time / 1000 % 3, time);
      }
    }
    assertThat(printed.filter(w -> w.length() == 16)).containsExactlyElementsOf(frames);
  }

  /** The words that a sketch prints on the simulated chip. */
  private static Stream<String> run(Path folder, String sketch, Controller controller, byte[] table)
      throws Exception {
    Compilation.assumeCompiler("avr-gcc");
    Compilation.assumeCompiler("simavr");
    Compilation compilation = new Compilation(folder);
    compilation.write("west.h", TableHeader.of(Samples.BOOK, controller, table));
    compilation.compile(
        "avr-gcc",
        "-std=gnu99",
        "-mmcu=atmega328p",
        "-Os",
        "-Wall",
        "-Wextra",
        "-Werror",
        "-o",
        "sketch.elf",
        sketch);
    String printed =
        compilation.compile("simavr", "-m", "atmega328p", "-f", "16000000", "sketch.elf");
    return Stream.of(printed.replaceAll("[^0-9a-f]+", " ").split(" "));
  }

  private static String hex(byte[] bytes) {
    return HexFormat.of().formatHex(bytes);
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
