package dev.doublet.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The reader in C gives no warning, whatever it is told to leave out, by compilers of machines and
 * of chips, as C99 and as C++17; and on chips its structs are as small as promised.
 */
@Tag("slow")
class ReaderWarningsTest {
  private static final List<String> STRICT =
      List.of(
          "-Wall",
          "-Wextra",
          "-Wconversion",
          "-Wshadow",
          "-Wcast-align",
          "-Wsign-conversion",
          "-pedantic",
          "-Werror",
          "-fsyntax-only");

  /** Each with each; words add one function and change no other. */
  private static final List<String> DEFINES =
      List.of(
          "-DDOUBLET_FADES",
          "-DDOUBLET_NO_SETTLING",
          "-DDOUBLET_NO_TOPICS",
          "-DDOUBLET_NO_EVENTS",
          "-DDOUBLET_NO_FRAMES");

  /** What changes how the lights of a frame are kept. */
  private static final List<String> FEWER_LIGHTS =
      List.of(
          " -DDOUBLET_NO_NUMERALS",
          " -DDOUBLET_NO_LEVELS",
          " -DDOUBLET_NO_CHIPS",
          " -DDOUBLET_NO_LEVELS -DDOUBLET_NO_CHIPS",
          " -DDOUBLET_NO_NUMERALS -DDOUBLET_NO_LEVELS -DDOUBLET_NO_CHIPS");

  private static final int ALL = 1 << DEFINES.size();

  @TempDir private Path folder;
  private Compilation compilation;

  @BeforeEach
  void placeTheReader() throws IOException {
    compilation = new Compilation(folder);
  }

  @ParameterizedTest
  @CsvSource({
    "gcc, -std=c99 -O1",
    "g++, -x c++ -std=c++17",
    "clang, -std=c99",
    "clang++, -x c++ -std=c++17",
    "avr-gcc, -mmcu=atmega328p -std=c99 -Os",
    "arm-none-eabi-gcc, -mcpu=cortex-m0 -mthumb -std=c99",
    "riscv64-unknown-elf-gcc, --specs=picolibc.specs -march=rv32imac -mabi=ilp32 -std=c99",
    "xtensa-lx106-elf-gcc, --specs=/usr/lib/xtensa-lx106-elf/picolibc.specs -std=c99"
  })
  void whateverIsLeftOut(String compiler, String options) throws Exception {
    Compilation.assumeCompiler(compiler);
    for (int left = 0; left < ALL; left++) {
      compile(compiler, options, left, STRICT);
    }
    for (String less : FEWER_LIGHTS) {
      compile(compiler, options + less, 0, STRICT);
      compile(compiler, options + less, 1, STRICT);
    }
    compile(compiler, options + " -DDOUBLET_WORDS", 0, STRICT);
    compile(compiler, options + " -DDOUBLET_SERVOS", 0, STRICT);
    compile(compiler, options + " -DDOUBLET_SERVOS", ALL - 1, STRICT);
    compile(compiler, options + " -DDOUBLET_WORDS", ALL - 1, STRICT);
    compile(compiler, options + " -DDOUBLET_SWING=3", 1, STRICT);
    compile(compiler, options + " -DDOUBLET_SWING=510", 1, STRICT);
  }

  @ParameterizedTest
  @CsvSource({"gcc, -std=c99 -O1 -fanalyzer -c"})
  void alongEachPath(String compiler, String options) throws Exception {
    Compilation.assumeCompiler(compiler);
    for (int left = 0; left < ALL; left++) {
      compile(compiler, options + " -DDOUBLET_WORDS", left, List.of("-Wall", "-Werror"));
    }
  }

  private void compile(String compiler, String options, int left, List<String> warnings)
      throws Exception {
    List<String> command = new ArrayList<>(List.of(compiler));
    command.addAll(List.of(options.split(" ")));
    command.addAll(warnings);
    for (int i = 0; i < DEFINES.size(); i++) {
      if ((left >> i & 1) == 1) {
        command.add(DEFINES.get(i));
      }
    }
    command.add("every.c");
    compilation.compile(command.toArray(new String[0]));
  }
}
