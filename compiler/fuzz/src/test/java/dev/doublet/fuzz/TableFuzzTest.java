package dev.doublet.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableListing;
import dev.doublet.table.TableReader;
import dev.doublet.table.TableWriter;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import java.util.zip.CRC32C;
import org.junit.jupiter.params.provider.MethodSource;

class TableFuzzTest {
  static Stream<byte[]> tables() throws IOException, TableFault {
    List<byte[]> tables = new ArrayList<>();
    for (byte[] layout : Texts.layouts().toList()) {
      String text = new String(layout, StandardCharsets.UTF_8);
      Optional<Layout> read =
          LayoutResolver.resolve("layout.yaml", Texts.reader("layout.yaml", text)).value();
      if (read.isPresent()) {
        for (Controller controller : read.get().controllers()) {
          tables.add(TableWriter.write(Lowering.lower(read.get().rulebook(), controller)));
        }
      }
    }
    return tables.stream();
  }

  /** Bytes whose length and checksum are right, so that what is wrong lies behind both. */
  @MethodSource("tables")
  @FuzzTest
  void anyBytesAreATableThatCanBeListedAndReadOrAreRefused(byte[] bytes) {
    if (bytes.length >= 12 && bytes.length < 65536) {
      ByteBuffer table = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
      table.putShort(6, (short) bytes.length);
      CRC32C sum = new CRC32C();
      sum.update(bytes, 0, bytes.length - 4);
      table.putInt(bytes.length - 4, (int) sum.getValue());
    }
    try {
      TableReader reader = TableReader.open(bytes);
      if (TableListing.of(bytes).isBlank()) {
        throw new AssertionError("nothing is listed");
      }
      for (int chain = 0; chain < reader.model().chains().size(); chain++) {
        reader.leds(chain, bytes[0]);
      }
    } catch (TableFault refused) {
      if (refused.getMessage().isBlank()) {
        throw new AssertionError("no reason is given");
      }
    }
  }
}
