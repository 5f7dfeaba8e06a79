package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@Tag("slow")
class ReaderObjectCodeTest {
  private static final String[] STRICT = {
    "gcc", "-std=c99", "-Wall", "-Wextra", "-Wconversion", "-pedantic", "-Werror"
  };

  @TempDir private Path folder;
  private Compilation compilation;

  @BeforeEach
  void needsACompiler() throws IOException {
    Compilation.assumeCompiler("gcc");
    compilation = new Compilation(folder);
  }

  @Test
  void theReaderCompilesWithoutWarningsUsedOrUnusedIncludedOnceOrTwice() throws Exception {
    compilation.write("unused.c", "#include \"doublet_reader.h\"\n");
    compilation.write("words.c", "#define DOUBLET_WORDS\n#include \"doublet_reader.h\"\n");
    compilation.write("fades.c", "#define DOUBLET_FADES\n#include \"every.c\"\n");
    for (String file : new String[] {"unused.c", "words.c", "every.c", "fades.c"}) {
      compile(file, "-O0");
      compile(file, "-O2");
    }
  }

  @Test
  void theReaderCompilesAsCppToo() throws Exception {
    Compilation.assumeCompiler("g++");
    compilation.compile(
        "g++", "-x", "c++", "-Wall", "-Wextra", "-Werror", "-fsyntax-only", "every.c");
  }

  @Test
  void theWholeReaderTakesAtMostSevenKibibytesOfCodeAndConstants() throws Exception {
    assertThat(objectBytes("every")).isBetween(1000, 7168);
  }

  @Test
  void fadesTakeAKibibyteMore() throws Exception {
    compilation.write("fades.c", "#define DOUBLET_FADES\n#include \"every.c\"\n");
    assertThat(objectBytes("fades")).isBetween(3072, 8448);
  }

  private int objectBytes(String name) throws Exception {
    compile(name + ".c", "-Os");
    int bytes = 0;
    for (String line : compilation.compile("size", "-A", name + ".o").split("\n")) {
      if (line.startsWith(".text") || line.startsWith(".rodata")) {
        bytes += Integer.parseInt(line.trim().split("\\s+")[1]);
      }
    }
    return bytes;
  }

  private void compile(String file, String optimisation) throws Exception {
    String[] command = Arrays.copyOf(STRICT, STRICT.length + 3);
    command[STRICT.length] = optimisation;
    command[STRICT.length + 1] = "-c";
    command[STRICT.length + 2] = file;
    compilation.compile(command);
  }
}
