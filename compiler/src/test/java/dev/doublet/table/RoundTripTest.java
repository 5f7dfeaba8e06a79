package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

@Tag("slow")
class RoundTripTest {

  @Test
  void everyTableUnpacksToWhatItWasMadeOfAndPacksToTheSameBytes() throws TableFault {
    Random random = new Random(1);
    for (int i = 0; i < 1000; i++) {
      TableModel model = Samples.lower(RandomController.of(random));
      byte[] bytes = Samples.write(model);
      TableModel unpacked = TableDecoder.decode(bytes);
      assertThat(unpacked).isEqualTo(model);
      assertThat(Samples.write(unpacked)).isEqualTo(bytes);
    }
  }
}
