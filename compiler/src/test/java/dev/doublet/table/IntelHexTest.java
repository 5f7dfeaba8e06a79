package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files for writers of chips, against a program of general use that makes them too. */
class IntelHexTest {
  private static final Path OBJCOPY = Path.of("/usr/bin/objcopy");

  /** Where a program begins, of which a table has nothing to say. */
  private static final String START = ":0400000300004000B9\n";

  @Test
  void a_record_says_its_length_address_type_and_sum() {
    // By hand: 04 + 40 + 00 + 00 + 44 + 42 + 4C + 54 is 16A, so 96 makes it 200.
    assertThat(new String(IntelHex.of(new byte[] {0x44, 0x42, 0x4C, 0x54}, 0x4000)))
        .isEqualTo(":0440000044424C5496\n:00000001FF\n");
    assertThat(new String(IntelHex.of(new byte[0], 0))).isEqualTo(":00000001FF\n");
    assertThatThrownBy(() -> IntelHex.of(new byte[2], 0xFFFF))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void it_is_what_gnu_objcopy_makes(@TempDir Path folder) throws Exception {
    assumeTrue(Files.isExecutable(OBJCOPY), "GNU objcopy is not installed");
    Random random = new Random(5);
    for (int length : new int[] {1, 15, 16, 17, 128, 1595, 14336}) {
      byte[] bytes = new byte[length];
      random.nextBytes(bytes);
      Path raw = Files.write(folder.resolve("raw"), bytes);
      Path hex = folder.resolve("hex");
      Process process =
          new ProcessBuilder(
                  OBJCOPY.toString(),
                  "-I",
                  "binary",
                  "-O",
                  "ihex",
                  "--change-addresses",
                  "0x4000",
                  raw.toString(),
                  hex.toString())
              .inheritIO()
              .start();
      assertThat(process.waitFor()).isZero();
      assertThat(new String(IntelHex.of(bytes, 0x4000), StandardCharsets.US_ASCII))
          .isEqualTo(Files.readString(hex).replace("\r", "").replace(START, ""));
    }
  }
}
