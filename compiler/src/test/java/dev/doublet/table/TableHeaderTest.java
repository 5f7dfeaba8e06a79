package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Supply;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TableHeaderTest {
  private static final Controller CONTROLLER = Samples.everyMode();
  private static final byte[] TABLE = Samples.write(CONTROLLER);

  @Test
  void namesNumbersAndNeedsAreDefined() {
    assertThat(TableHeader.of(Samples.BOOK, CONTROLLER, TABLE).lines())
        .containsSubsequence(
            " * Table of controller \"west\", after edition 3 of",
            "#define WEST_FORMAT 3 /* version of the table's format */",
            "#define WEST_UNITS 12",
            "#define WEST_STATE_BYTES (12 * DOUBLET_UNIT) /* for doublet_open */",
            "#define WEST_RAM 212 /* reader, state and the bytes of every chain */",
            "#define WEST_BUS_CLUB 0 /* club */",
            "#define WEST_TOPICS_OF_BUS_NET \"brackwater\"",
            "#define WEST_CHAIN_EAST 0 /* east */",
            "#define WEST_BYTES_OF_CHAIN_EAST 72",
            "#define WEST_SIGNAL_B2 0 /* B2 */",
            "#define WEST_TOPIC_OF_SIGNAL_B16 \"brackwater/\\303\\251tang\"",
            "#define WEST_SIGNAL_B24 11 /* B24 */");
  }

  @Test
  void namesAreSpeltWhateverStandsBeforeThemAndLikeOnesAreRefused() {
    Chain chain =
        new Chain(
            "mühle */ 1",
            0,
            Samples.PIXEL,
            100,
            100,
            9,
            Supply.UNSAID,
            Cable.UNSAID,
            List.of(),
            Samples.NOWHERE);
    Controller controller =
        Samples.controller(
            List.of(chain),
            List.of(
                Samples.onTopic("W3 top", chain, 0, "a", List.of("Stop")),
                Samples.onTopic("w3-top", chain, 1, "b", List.of("Stop"))));
    assertThatThrownBy(() -> Lowering.lower(Samples.BOOK, controller))
        .hasMessage(
            "the signals \"W3 top\" and \"w3-top\" are both spelt W3_TOP in the header; rename"
                + " one of them");
    Controller other =
        Samples.controller(
            List.of(chain), List.of(Samples.onTopic("\u00c41", chain, 0, "a", List.of("Stop"))));
    assertThat(TableHeader.of(Samples.BOOK, other, Samples.write(other)))
        .contains("WEST_CHAIN_M_00FCHLE____1 0 /* m\u00fchle * / 1 */\n")
        .contains("WEST_SIGNAL__00C41 0 /* \u00c41 */\n");
  }

  @Test
  void noTitleEndsOrBeginsAComment() {
    Rulebook book =
        RulebookResolver.resolve(
                "book.aspects",
                path ->
                    new SourceFile(
                        path,
                        "rulebook \"a */ b /* c */* d\""
                            + " aspect \"Stop\" { number 0 allows stop }"))
            .value()
            .orElseThrow();
    String header = TableHeader.of(book, CONTROLLER, TABLE);
    assertThat(header).contains("\"a * / b / * c * / * d\"");
  }

  @Test
  void itCompilesWithTheReaderAndOpens(@TempDir Path folder) throws Exception {
    Compilation.assumeCompiler("gcc");
    Compilation compilation = new Compilation(folder);
    compilation.write("west.h", TableHeader.of(Samples.BOOK, CONTROLLER, TABLE));
    compilation.write(
        "sketch.c",
        """
        #include "doublet_reader.h"
        #include "west.h"
        #include "west.h"

        static uint8_t state[WEST_STATE_BYTES];
        static uint8_t leds[WEST_BYTES_OF_CHAIN_EAST];

        int main(void) {
          struct doublet signals;
          if (doublet_open(&signals, west_table, sizeof west_table, state, sizeof state)) return 1;
          if (doublet_checksum(&signals) != WEST_CHECKSUM) return 6;
          if (doublet_units(&signals) != WEST_UNITS || sizeof west_table != WEST_BYTES) return 2;
          if (doublet_extended(&signals, WEST_BUS_TRACK, 4, 3, 0) != 1) return 3;
          if (doublet_aspect(&signals, WEST_SIGNAL_B2, 0) != 3) return 4;
          return doublet_leds(&signals, WEST_CHAIN_EAST, 0, leds, sizeof leds) ? 0 : 5;
        }
        """);
    compilation.compile(
        "gcc", "-std=c99", "-Wall", "-Wextra", "-pedantic", "-Werror", "-o", "sketch", "sketch.c");
    compilation.compile(folder.resolve("sketch").toString());
  }
}
