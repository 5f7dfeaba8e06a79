package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Tables of released format versions must be read for ever; their files are never written anew. */
class FrozenTablesTest {

  @Test
  void versionOneIsReadAndListedAsEver() throws IOException, TableFault {
    byte[] table = file("v1/every-mode.table");
    assertThat(TableListing.of(table))
        .isEqualTo(new String(file("v1/every-mode.txt"), StandardCharsets.UTF_8));
    assertThat(TableWriter.write(TableDecoder.decode(table))).isEqualTo(table);
  }

  @Test
  void versionOneIsWrittenAsEver() throws IOException {
    assertThat(Samples.write(Samples.everyMode())).isEqualTo(file("v1/every-mode.table"));
  }

  @Test
  void versionTwoIsReadAndListedAsEver() throws IOException, TableFault {
    byte[] table = file("v2/hand-made.table");
    assertThat(table).isEqualTo(HandMadeTableTest.LATER);
    assertThat(TableListing.of(table))
        .isEqualTo(new String(file("v2/hand-made.txt"), StandardCharsets.UTF_8));
  }

  private static byte[] file(String name) throws IOException {
    try (InputStream in = FrozenTablesTest.class.getResourceAsStream("/tables/" + name)) {
      return Objects.requireNonNull(in, name).readAllBytes();
    }
  }
}
