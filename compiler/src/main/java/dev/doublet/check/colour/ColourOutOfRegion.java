package dev.doublet.check.colour;

import dev.doublet.check.Check;
import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Drive;
import dev.doublet.colour.DriveSolver;
import dev.doublet.colour.Region;
import dev.doublet.colour.RegionSet;
import dev.doublet.colour.Xyz;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LedGroup;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** A colour that lies outside its published region. */
public final class ColourOutOfRegion implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    Rulebook book = facts.layout().rulebook();
    for (LedGroup glow : LedGroup.full(facts)) {
      glow.shown()
          .forEach(
              (name, unit) ->
                  new Judged(glow, book.colour(name).orElseThrow(), unit)
                      .judge(book.colourSet())
                      .ifPresent(found::add));
    }
    atOutputs(facts).forEach((at, unit) -> atOutput(book, at, unit).ifPresent(found::add));
    return found;
  }

  /** A colour of an LED at outputs of one kind of chip. */
  private record AtOutput(Chip chip, String colour) {}

  private static Map<AtOutput, Unit> atOutputs(LayoutFacts facts) {
    Map<AtOutput, Unit> found = new LinkedHashMap<>();
    for (LayoutFacts.Alike alike : facts.kinds()) {
      Kind kind = alike.kind();
      for (int lamp = 0; !kind.feeds().isEmpty() && lamp < kind.lamps(); lamp++) {
        int at = lamp;
        Optional<Chip> chip = kind.chip(lamp);
        kind.states().stream()
            .map(s -> s.lit().get(at).look())
            .filter(look -> chip.isPresent() && !look.equals(Display.DARK.look()))
            .forEach(look -> found.putIfAbsent(new AtOutput(chip.get(), look), alike.first()));
      }
    }
    return found;
  }

  /** Judges an LED by what its data sheet says, or whoever measured it. */
  private Optional<Diagnostic> atOutput(Rulebook book, AtOutput at, Unit unit) {
    Colour colour = book.colour(at.colour()).orElseThrow();
    Optional<Chromaticity> light = at.chip().diode(at.colour()).light().map(Xyz::chromaticity);
    Optional<RegionSet> asked = RegionSet.named(book.colourSet());
    boolean demanded = asked.flatMap(s -> s.region(colour.published())).isPresent();
    List<Region> regions =
        (demanded
                ? asked.stream()
                : Stream.concat(Stream.of(RegionSet.aimedAt("")), RegionSet.published().stream()))
            .flatMap(s -> s.region(colour.published()).stream())
            .toList();
    if (light.isEmpty()
        || regions.isEmpty()
        || regions.stream().anyMatch(r -> r.contains(light.get()))) {
      return Optional.empty();
    }
    Diagnostic said =
        finding(
                demanded ? Severity.ERROR : Severity.WARNING,
                at.chip().span(),
                Words.say(
                    "%s at outputs of chip \"%s\" is in no %s of %s",
                    at.colour(),
                    at.chip().name(),
                    demanded ? "region of set " + asked.get().name() : "published region",
                    colour.published()))
            .about(List.of(at.chip().name(), at.colour()))
            .related(unit.span(), "shows it")
            .word("colour", at.colour())
            .word("published colour", colour.published())
            .word("chip", at.chip().name())
            .measure("x", light.get().x(), 4, "")
            .measure("y", light.get().y(), 4, "")
            .fact("shines", Words.say("x %.4f and y %.4f", light.get().x(), light.get().y()))
            .help("choose an LED of another bin, or mend its \"light\"");
    return Optional.of(because(said, regions.get(0)));
  }

  /** One colour on one kind of LED. */
  private final class Judged {
    private final LedGroup glow;
    private final Colour colour;
    private final Unit unit;
    private final Drive drive;
    private final Chromaticity middle;

    Judged(LedGroup glow, Colour colour, Unit unit) {
      this.glow = glow;
      this.colour = colour;
      this.unit = unit;
      this.drive = glow.sent(colour.name());
      this.middle = glow.light(colour.name()).chromaticity();
    }

    Optional<Diagnostic> judge(String asked) {
      Optional<RegionSet> set = RegionSet.named(asked);
      Optional<Region> region = set.flatMap(s -> s.region(colour.published()));
      if (region.isPresent()) {
        double margin = new DriveSolver(glow.part().family()).margin(drive, region.get());
        return margin >= 0
            ? Optional.empty()
            : Optional.of(missed(set.get(), region.get(), margin));
      }
      List<Region> regions =
          Stream.concat(Stream.of(RegionSet.aimedAt("")), RegionSet.published().stream())
              .flatMap(s -> s.region(colour.published()).stream())
              .toList();
      boolean met = regions.isEmpty() || regions.stream().anyMatch(r -> r.contains(middle));
      return met ? Optional.empty() : Optional.of(strange());
    }

    /** The set was asked for, and some LED is outside of its region. */
    private Diagnostic missed(RegionSet set, Region region, double margin) {
      boolean typical = region.contains(middle);
      String message =
          Words.say(
              typical
                  ? "%s on %s is the %s of set %s for a typical LED, but not for every one of its bins"
                  : "%s on %s is not the %s of set %s",
              colour.name(),
              glow.words(),
              colour.published(),
              set.name());
      Diagnostic diagnostic =
          finding(typical ? Severity.WARNING : Severity.ERROR, glow.part().span(), message)
              .about(glow.names(Stream.of(colour.name())))
              .related(colour.span(), "asked for here")
              .fact("driven", driven(drive, middle))
              .fact("farthest LED", Words.say("outside by %.4f in x and y", -margin));
      return because(
          advised(data(diagnostic), set, typical)
              .word("set", set.name())
              .measure("outside by", -margin, 4, "x, y"),
          region);
    }

    /** No set was asked for, and the light is in the region of none. */
    private Diagnostic strange() {
      RegionSet usual =
          Stream.concat(Stream.of(RegionSet.aimedAt("")), RegionSet.published().stream())
              .filter(s -> s.region(colour.published()).isPresent())
              .findFirst()
              .orElseThrow();
      Region region = usual.region(colour.published()).orElseThrow();
      Diagnostic diagnostic =
          finding(
                  Severity.WARNING,
                  glow.part().span(),
                  Words.say(
                      region.isChosen()
                          ? "%s on %s is in no region of %s"
                          : "%s on %s is in no published region of %s",
                      colour.name(),
                      glow.words(),
                      colour.published()))
              .about(glow.names(Stream.of(colour.name())))
              .related(unit.span(), "shows it")
              .fact("driven", driven(drive, middle));
      return because(advised(data(diagnostic), usual, false), region);
    }

    private Diagnostic data(Diagnostic diagnostic) {
      return diagnostic
          .word("colour", colour.name())
          .word("published colour", colour.published())
          .word("LEDs", glow.part().name())
          .numbers("drive", drive.levels())
          .measure("x", middle.x(), 4, "")
          .measure("y", middle.y(), 4, "");
    }

    private Diagnostic advised(Diagnostic diagnostic, RegionSet aim, boolean typical) {
      Diagnostic said = diagnostic;
      String met = sets(RegionSet.published().stream().filter(this::holdsForAll).toList());
      if (!met.isEmpty()) {
        said = said.fact("met by every LED", met);
      }
      met = sets(RegionSet.published().stream().filter(this::holdsForMiddle).toList());
      if (!met.isEmpty()) {
        said = said.fact("met by a typical LED", met);
      }
      Optional<Drive> closest =
          new DriveSolver(glow.part().family())
              .closest(colour.published(), aim)
              .filter(d -> !d.equals(drive));
      if (closest.isPresent()) {
        said = said.fact("nearest that can be sent", nearest(closest.get()));
      }
      String measure =
          "measure an LED of each reel and write \"measured\" for this kind of LED, so that bins no longer count";
      return said.help(
          typical
              ? measure + "; or ask for a set that is met"
              : (closest.isEmpty() ? "" : "send {send}; or ") + measure,
          closest.stream()
              .map(
                  d ->
                      Datum.of(
                          "send", colour.name() + ": [" + d.toString().replace(",", ", ") + "]"))
              .toArray(Datum[]::new));
    }

    private boolean holdsForAll(RegionSet set) {
      return set.region(colour.published())
          .filter(r -> new DriveSolver(glow.part().family()).margin(drive, r) >= 0)
          .isPresent();
    }

    private boolean holdsForMiddle(RegionSet set) {
      return set.region(colour.published()).filter(r -> r.contains(middle)).isPresent();
    }

    private String nearest(Drive closest) {
      Chromaticity light = glow.part().family().light(closest).chromaticity();
      String met =
          sets(
              RegionSet.published().stream()
                  .filter(
                      s -> s.region(colour.published()).filter(r -> r.contains(light)).isPresent())
                  .toList());
      return driven(closest, light) + (met.isEmpty() ? "" : ", and meets " + met);
    }
  }

  private static String driven(Drive drive, Chromaticity light) {
    return Words.say("%s, which is x %.4f and y %.4f", drive, light.x(), light.y());
  }

  private static String sets(List<RegionSet> sets) {
    return Words.list(sets.stream().map(RegionSet::name).toList());
  }

  private static Diagnostic because(Diagnostic diagnostic, Region region) {
    return region.isChosen()
        ? diagnostic.because(
            "no published borders of "
                + region.colour()
                + " were found; these are "
                + region.citation())
        : diagnostic.because(
            region.citation()
                + " draws these borders for lights of its own sort; no borders for railway signals were found, so that a crew is judged by them is our choice",
            region.citation());
  }
}
