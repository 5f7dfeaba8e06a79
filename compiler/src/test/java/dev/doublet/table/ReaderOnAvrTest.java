package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Controller;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ReaderOnAvrTest {

  @Test
  void aTableInProgramMemoryGivesTheSameBytesAsTheDecoderInJava(@TempDir Path folder)
      throws Exception {
    Compilation.assumeCompiler("avr-gcc");
    Compilation.assumeCompiler("simavr");
    Controller controller = Samples.everyMode();
    byte[] table = Samples.write(controller);
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
        "sketch.c");
    String printed =
        compilation.compile("simavr", "-m", "atmega328p", "-f", "16000000", "sketch.elf");

    TableReader reader = TableReader.open(table);
    String before = hex(reader.leds(0, 0));
    reader.extended(2, 4, 3);
    reader.packet(2, HexFormat.of().parseHex("817307f5"));
    reader.topic(1, utf8("brackwater/home"), utf8("Aspect 2"));
    reader.event(0, -1);
    assertThat(
            Stream.of(printed.replaceAll("[^0-9a-f]+", " ").split(" "))
                .filter(w -> w.length() > 50))
        .containsExactly(
            before,
            hex(reader.leds(0, 0)),
            hex(reader.leds(0, 123_456)),
            hex(reader.leds(1, 123_456)));
  }

  private static String hex(byte[] bytes) {
    return HexFormat.of().formatHex(bytes);
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
