package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a frame says of how long its LEDs stay, held against frames of every millisecond behind. */
class ReaderQuietTest {
  private static final int TABLES = 60;

  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"-DDOUBLET_WORDS", "-DDOUBLET_FADES"})
  void ledsStayAsLongAsTheirFrameSaysAndMostlyNoLonger(String define) throws Exception {
    Compilation.assumeCompiler("gcc");
    new Compilation(folder).compile("gcc", "-std=c99", "-O2", define, "-o", "quiet", "quiet.c");
    long[] sums = sums();
    assertThat(sums[3]).as("answers that were too long").isZero();
    assertThat(sums[0]).as("answers").isGreaterThan(1_000);
    assertThat(sums[1]).as("answers that end").isBetween(sums[0] / 8, sums[0]);
    boolean fades = define.endsWith("FADES");
    assertThat(sums[2])
        .as("answers at whose end LEDs change")
        .isGreaterThan(sums[1] / (fades ? 20 : 2));
  }

  private long[] sums() throws IOException, InterruptedException {
    Random random = new Random(8);
    ByteArrayOutputStream in = new ByteArrayOutputStream();
    for (int i = 0; i < TABLES; i++) {
      byte[] table = Samples.write(RandomController.of(random));
      in.writeBytes(new byte[] {(byte) table.length, (byte) (table.length >> 8), 0, 0});
      in.writeBytes(table);
    }
    Files.write(folder.resolve("in"), in.toByteArray());
    Process process =
        new ProcessBuilder(folder.resolve("quiet").toString())
            .redirectInput(folder.resolve("in").toFile())
            .redirectErrorStream(true)
            .start();
    String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(out).isZero();
    long[] sums = new long[4];
    for (String line : out.lines().toList()) {
      long[] counts = Arrays.stream(line.split(" ")).mapToLong(Long::parseLong).toArray();
      Arrays.setAll(sums, i -> sums[i] + counts[i]);
    }
    return sums;
  }
}
