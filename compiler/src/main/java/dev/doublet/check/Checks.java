package dev.doublet.check;

import dev.doublet.check.acceptance.IdleAcceptance;
import dev.doublet.check.ambiguity.FlashOnlyDifference;
import dev.doublet.check.ambiguity.TwinAspects;
import dev.doublet.check.ambiguity.TwinFigures;
import dev.doublet.check.ambiguity.TwinsByNight;
import dev.doublet.check.ambiguity.TwoNamesOneMeaning;
import dev.doublet.check.budget.AddressClash;
import dev.doublet.check.budget.BroadcastAddress;
import dev.doublet.check.budget.MemoryTooSmall;
import dev.doublet.check.budget.SlowBoard;
import dev.doublet.check.budget.SlowChain;
import dev.doublet.check.budget.SupplyTooSmall;
import dev.doublet.check.budget.UnwritableTable;
import dev.doublet.check.budget.ValueOutOfReach;
import dev.doublet.check.budget.VoltageTooHigh;
import dev.doublet.check.budget.VoltageTooLow;
import dev.doublet.check.budget.WireTooThin;
import dev.doublet.check.budget.WrappedAddress;
import dev.doublet.check.colour.ColourOutOfRegion;
import dev.doublet.check.colour.ColoursTooClose;
import dev.doublet.check.colour.DimmedOffColour;
import dev.doublet.check.colour.FastFlash;
import dev.doublet.check.colour.LampsMerge;
import dev.doublet.check.colour.LoneWhite;
import dev.doublet.check.colour.RatesTooAlike;
import dev.doublet.check.coverage.AutomaticNumbers;
import dev.doublet.check.coverage.LostPacket;
import dev.doublet.check.coverage.MeaninglessPictures;
import dev.doublet.check.coverage.MissingPattern;
import dev.doublet.check.coverage.NoMostRestrictiveAspect;
import dev.doublet.check.coverage.NoPlainStop;
import dev.doublet.check.coverage.NoRestAspect;
import dev.doublet.check.coverage.NoStop;
import dev.doublet.check.coverage.NoStopOnForm;
import dev.doublet.check.coverage.PictureWithoutAspect;
import dev.doublet.check.coverage.SettlingOff;
import dev.doublet.check.coverage.UnansweredCommand;
import dev.doublet.check.coverage.UncalledAspect;
import dev.doublet.check.coverage.UncarriedPlate;
import dev.doublet.check.coverage.UnshowableAspect;
import dev.doublet.check.coverage.ZeroNotStop;
import dev.doublet.check.expectation.FailedExpectation;
import dev.doublet.check.failure.ClearOnTheWay;
import dev.doublet.check.failure.FalseProceed;
import dev.doublet.check.failure.FaultSummary;
import dev.doublet.check.failure.IdleCover;
import dev.doublet.check.failure.RiskyPattern;
import dev.doublet.check.letters.HiddenCharacter;
import dev.doublet.check.letters.LookAlikeLetters;
import dev.doublet.check.sequence.SequenceGap;
import dev.doublet.check.sequence.UnannouncedSpeed;
import dev.doublet.check.sequence.UnmetAnnouncement;
import dev.doublet.check.wording.EarlierNameInUse;
import dev.doublet.check.wording.IndicationAgainstPermission;
import dev.doublet.check.wording.RepeatedPattern;
import dev.doublet.check.wording.SharedIndication;
import dev.doublet.check.wording.SharedRule;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.facts.Patience;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

/** Every check there is. */
public final class Checks {
  /** Checks of texts, be they as broken as they may. */
  public static final List<Check.OfTexts> OF_TEXTS =
      List.of(new HiddenCharacter(), new LookAlikeLetters());

  /** Checks of a rulebook alone. */
  public static final List<Check.OfBook> OF_BOOK =
      List.of(
          new TwinAspects(),
          new TwinFigures(),
          new TwinsByNight(),
          new TwoNamesOneMeaning(),
          new ClearOnTheWay(),
          new SequenceGap(),
          new UnannouncedSpeed(),
          new UnmetAnnouncement(),
          new SharedRule(),
          new SharedIndication(),
          new RepeatedPattern(),
          new EarlierNameInUse(),
          new IndicationAgainstPermission(),
          new FlashOnlyDifference(),
          new FailedExpectation(),
          new IdleCover(),
          new LoneWhite(),
          new RatesTooAlike(),
          new FastFlash());

  /** Checks of a rulebook that no layout stands on: a layout tells more of the same. */
  public static final List<Check.OfBook> OF_BOOK_ALONE =
      List.of(new RiskyPattern(), new NoPlainStop(), new NoStopOnForm());

  /** Checks of a layout with its rulebook. */
  public static final List<Check.OfLayout> OF_LAYOUT =
      List.of(
          new MissingPattern(),
          new UnshowableAspect(),
          new UnansweredCommand(),
          new UncalledAspect(),
          new UncarriedPlate(),
          new SettlingOff(),
          new LostPacket(),
          new AutomaticNumbers(),
          new NoMostRestrictiveAspect(),
          new NoRestAspect(),
          new NoStop(),
          new ZeroNotStop(),
          new MeaninglessPictures(),
          new PictureWithoutAspect(),
          new FalseProceed(),
          new FaultSummary(),
          new AddressClash(),
          new BroadcastAddress(),
          new WrappedAddress(),
          new ValueOutOfReach(),
          new MemoryTooSmall(),
          new UnwritableTable(),
          new SupplyTooSmall(),
          new VoltageTooLow(),
          new VoltageTooHigh(),
          new WireTooThin(),
          new SlowChain(),
          new SlowBoard(),
          new ColourOutOfRegion(),
          new ColoursTooClose(),
          new DimmedOffColour(),
          new LampsMerge());

  /** Checks of what those before them found. */
  public static final List<Check.OfFindings> OF_FINDINGS = List.of(new IdleAcceptance());

  private Checks() {}

  /** All of them. */
  public static List<Check<?>> all() {
    return Stream.of(OF_TEXTS, OF_BOOK, OF_BOOK_ALONE, OF_LAYOUT, OF_FINDINGS)
        .<Check<?>>flatMap(List::stream)
        .toList();
  }

  /** The same of facts of which nothing is known yet. */
  public static <F> Findings run(
      List<? extends Check<F>> checks, F facts, Set<Check.Needs> met, List<Diagnostic> before) {
    return new Known<>(facts).run(checks, met, before);
  }

  /**
   * Facts with what checks have found in them: no check looks at them twice.
   *
   * @param <F> what checks read
   */
  public static final class Known<F> {
    private final F facts;
    private final Map<Check<F>, List<Diagnostic>> found = new IdentityHashMap<>();

    /** Nothing is known yet. */
    public Known(F facts) {
      this.facts = facts;
    }

    /**
     * Runs checks tier by tier; what a check finds to be an error in one tier stops the later ones.
     *
     * @param checks which
     * @param met what was read without a mistake: checks that need something else do not run
     * @param before what earlier checks found
     */
    public Findings run(
        List<? extends Check<F>> checks, Set<Check.Needs> met, List<Diagnostic> before) {
      List<Diagnostic> all = new ArrayList<>(before);
      int skipped = 0;
      for (Tier tier : Tier.values()) {
        boolean stopped = all.stream().anyMatch(d -> isError(d) && d.tier().compareTo(tier) < 0);
        for (Check<F> check : checks.stream().filter(c -> c.tier() == tier).toList()) {
          if (stopped || !met.contains(check.needs())) {
            skipped++;
          } else {
            all.addAll(find(check));
          }
        }
      }
      return new Findings(List.copyOf(all.subList(before.size(), all.size())), skipped);
    }

    private List<Diagnostic> find(Check<F> check) {
      List<Diagnostic> known = found.get(check);
      if (known == null) {
        Patience.ask();
        known = check.find(facts);
        found.put(check, known);
      }
      return known;
    }
  }

  private static boolean isError(Diagnostic diagnostic) {
    return diagnostic.severity() == Severity.ERROR;
  }

  /**
   * What checks found.
   *
   * @param diagnostics in no order
   * @param skipped how many checks did not run because of earlier errors
   */
  public record Findings(List<Diagnostic> diagnostics, int skipped) {}
}
