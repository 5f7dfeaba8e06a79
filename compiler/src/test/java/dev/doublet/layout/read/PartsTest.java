package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.colour.Drive;
import dev.doublet.colour.DriveSolver;
import dev.doublet.colour.LedFamily;
import dev.doublet.colour.RegionSet;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Part;
import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The drive of colours that need no telling follows from the LED and the published colour. */
class PartsTest {

  @Test
  void plainLedsAreDrivenForRoadSignalColours() {
    Part part = part("red yellow green", "{}");
    assertThat(part.family().name()).isEqualTo("one-wire-rgb-5050");
    assertThat(part.order()).isEqualTo("GRB");
    assertThat(part.drive()).containsEntry("red", List.of(255, 0, 0));
    // Windows that facts/colour/windows.csv has for yellow and green of binned LEDs.
    assertThat(part.drive().get("yellow").get(1)).isBetween(83, 87);
    assertThat(part.drive().get("green").get(2)).isBetween(17, 53);
  }

  @Test
  void everyPublishedColourIsDrivenWhateverTheSetAskedFor() {
    String colours = "red yellow amber green blue white lunar purple warm-white";
    for (LedFamily family : LedFamily.published()) {
      Part part = part(colours, "{family: " + family.name() + "}");
      assertThat(part.drive().keySet()).containsExactlyInAnyOrder(colours.split(" "));
      assertThat(part.drive().values()).allMatch(d -> d.size() == part.channels());
    }
  }

  @Test
  void aSetAndAnotherNameChangeTheDrive() {
    assertThat(part("as marine { red clear as green }", "{}").drive().get("clear"))
        .isEqualTo(solved("green", "marine"))
        .isNotEqualTo(part("red green", "{}").drive().get("green"));
  }

  @Test
  void whatTheLayoutSaysOfAColourStands() {
    assertThat(part("red green", "{colours: {green: [1, 2, 3]}}").drive())
        .containsEntry("green", List.of(1, 2, 3))
        .containsEntry("red", List.of(255, 0, 0));
  }

  @Test
  void aMeasuredDieTakesThePlaceOfItsBins() {
    Part part = part("red yellow", "{measured: {green: {x: 0.17, y: 0.70, mcd: 1400}}}");
    LedFamily family = part.family();
    assertThat(family.dies().get(1).corners()).hasSize(1);
    assertThat(family.dies().get(0).corners()).hasSize(4);
    assertThat(part.drive().get("yellow").get(1)).isLessThan(60);
  }

  @Test
  void evenColoursAreAsBrightAsTheWeakest() {
    Part part = part("red yellow green", "{strength: even}");
    double red = part.family().light(new Drive(part.drive().get("red"))).y();
    assertThat(part.drive().get("red")).isEqualTo(List.of(255, 0, 0));
    for (List<Integer> drive : part.drive().values()) {
      assertThat(part.family().light(new Drive(drive)).y() / red).isBetween(0.98, 1.02);
    }
  }

  /**
   * The largest supplies that data sheets print: 5.3 V in two of three channels, 5.5 V in one of
   * four.
   */
  @Test
  void ledsBearWhatTheDataSheetsOfTheirSortAllowUnlessTheLayoutSaysMore() {
    for (LedFamily family : LedFamily.published()) {
      double printed = family.dies().size() == 4 ? 5.5 : 5.3;
      assertThat(part("red", "{family: " + family.name() + "}").maximumVolts()).isEqualTo(printed);
    }
    assertThat(part("red", "{maximum-volts: 6}").maximumVolts()).isEqualTo(6);
  }

  private static List<Integer> solved(String colour, String set) {
    return new DriveSolver(Families.plain(3))
        .solve(colour, RegionSet.named(set).orElseThrow())
        .closest()
        .orElseThrow()
        .levels();
  }

  private static Part part(String colours, String leds) {
    String names = colours.replaceAll("as \\S+|[{}]", " ");
    String declared = colours.contains("{") ? colours : "{ " + colours + " }";
    String book =
        """
        rulebook "Test" edition 1
        speeds in mph { normal 60 }
        colours %s
        head lamp-head { lamp main shows %s }
        form one-head { top }
        aspect "Stop" { number 0  allows stop  on one-head show red }
        """
            .formatted(declared, names);
    String layout =
        """
        layout: Test
        rulebook: book.aspects
        leds: {some: %s}
        controllers:
          a: {flash: 1, ram: 1, chains: {main: {signals: [
            {name: A, form: one-head, heads: [lamp-head], by: aspect-number}]}}}
        """
            .formatted(leds);
    Layout resolved =
        LayoutResolver.resolve(
                "layout.yaml", path -> new SourceFile(path, path.endsWith("yaml") ? layout : book))
            .value()
            .orElseThrow();
    return resolved.controllers().get(0).chains().get(0).part();
  }
}
