package dev.doublet.syntax;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.List;

/**
 * One .aspects file as written: nothing is looked up, nothing is sorted, nothing is lost but the
 * white space. A part that may be left out is a list of at most one, or of as many as were written
 * where writing it twice is a mistake for a later stage to report.
 *
 * @param file the text
 * @param declarations those that fit the grammar, in the order written; of the blocks of speeds,
 *     colours and rhythms also what fits of a broken one
 * @param broken those that do not, in the order written
 * @param comments in the order written
 */
public record Tree(
    SourceFile file, List<Declaration> declarations, List<Broken> broken, List<Comment> comments) {

  /** Copies the lists. */
  public Tree {
    declarations = List.copyOf(declarations);
    broken = List.copyOf(broken);
    comments = List.copyOf(comments);
  }

  /** True when everything that is written was read. */
  public boolean isWhole() {
    return broken.isEmpty();
  }

  /** True for the tests of a rulebook: a file that uses it, and holds nothing else but cases. */
  public boolean isTest() {
    return isWhole()
        && declarations.stream().anyMatch(Use.class::isInstance)
        && declarations.stream().anyMatch(d -> !(d instanceof Use))
        && declarations.stream()
            .allMatch(
                d ->
                    d instanceof Use
                        || d instanceof Meaning
                        || d instanceof Order
                        || d instanceof Allowed
                        || d instanceof Precedence);
  }

  /**
   * A part of the text that does not fit the grammar. What it says is unknown, and so is what its
   * names stand for; that they may be declared here is all that can be told of them.
   *
   * @param span up to the next declaration
   * @param words every name and text in it
   * @param mended what it would say after small changes, if those make a declaration of it; fit to
   *     show where names stand, and for nothing else
   * @param nameless true when it may declare a name that is not among its words
   */
  public record Broken(Span span, List<Word> words, List<Declaration> mended, boolean nameless) {
    /** Copies the lists. */
    public Broken {
      words = List.copyOf(words);
      mended = List.copyOf(mended);
    }
  }

  /** What a file consists of. */
  public sealed interface Declaration {
    /** From its first word to its last. */
    Span span();
  }

  /** {@code rulebook "T" edition 3 effective 1957-06-01}. */
  public record BookLine(Word title, List<Word> editions, List<Word> dates, Span span)
      implements Declaration {}

  /** {@code use "heads.aspects"}. */
  public record Use(Word path, Span span) implements Declaration {}

  /** {@code speeds in mph { … }}. */
  public record Speeds(Word unit, List<Speed> speeds, Span span) implements Declaration {}

  /**
   * {@code restricted 15 on sight}.
   *
   * @param rank a number, {@code maximum} or {@code unranked}
   */
  public record Speed(Word name, Word rank, boolean onSight) {}

  /**
   * {@code numbers times 10 { 4 6 8 }}.
   *
   * @param times what each is multiplied by
   */
  public record Numbers(List<Word> times, List<Word> figures, Span span) implements Declaration {}

  /**
   * {@code colours as road { red green }}, or {@code colours as road} alone.
   *
   * @param set the set of published regions
   */
  public record Colours(List<Word> set, List<Colour> colours, Span span) implements Declaration {}

  /**
   * {@code clear as green}.
   *
   * @param published the published colour it is
   */
  public record Colour(Word name, List<Word> published) {}

  /** {@code rhythms { flashing 50 per minute }}. */
  public record Rhythms(List<Rhythm> rhythms, Span span) implements Declaration {}

  /** {@code winking 100 per minute lit 30 percent}. */
  public record Rhythm(Word name, Word perMinute, List<Word> litPercent, boolean startsDark) {}

  /**
   * {@code head position { … }}.
   *
   * @param masks what a head shows with a lamp behind a mask for each number
   * @param positions those of an arm; empty for a head of lamps
   */
  public record Head(
      Word name,
      List<Lamps> lamps,
      List<Figure> figures,
      boolean filament,
      List<Word> vanes,
      List<Masks> masks,
      List<Position> positions,
      Span span)
      implements Declaration {}

  /**
   * {@code shows 4, 6 in white}.
   *
   * @param figures empty for all {@code numbers}
   */
  public record Masks(List<Word> figures, Word colour, Span span) {}

  /** {@code raised in green}, of an arm. */
  public record Position(Word name, List<Word> colour) {}

  /** {@code lamp upper, lower shows yellow}. */
  public record Lamps(List<Word> names, List<Word> colours) {}

  /** {@code figure double-yellow lights upper, lower}. */
  public record Figure(Word name, List<Lit> lit) {}

  /** {@code flashing lower in yellow}. */
  public record Lit(List<Word> rhythm, Word lamp, List<Word> colour) {}

  /**
   * {@code form ground dwarf { top, bottom usually dark } without stop}.
   *
   * @param mount as written, one space between its words; "in line" when nothing was
   */
  public record Form(Word name, String mount, List<Place> places, boolean withoutStop, Span span)
      implements Declaration {}

  /** {@code bottom usually dark}. */
  public record Place(Word name, boolean usuallyDark) {}

  /** {@code plate number, L turns medium into limited}. */
  public record Plates(List<Word> names, boolean withoutStop, List<Change> changes, Span span)
      implements Declaration {}

  /** {@code turns medium into limited}. */
  public record Change(Movement from, Movement to) {}

  /**
   * {@code imperfect signals read as most restrictive}.
   *
   * @param provisos what comes before {@code else}, in order
   * @param readAs what follows {@code as} or {@code else}, one space between its words
   */
  public record Imperfect(List<Proviso> provisos, String readAs, Span span)
      implements Declaration {}

  /** {@code "Slow Approach" where yellow or green shows}. */
  public record Proviso(Word aspect, List<Word> looks, boolean alone, Span span) {}

  /** {@code cover lamp-out on two-head because "…"}. */
  public record Cover(List<Word> faults, List<Word> forms, Word reason, Span span)
      implements Declaration {}

  /** {@code count die-out as errors}. */
  public record Grave(List<Word> faults, Span span) implements Declaration {}

  /**
   * {@code accept lone-white of "Clear" on ground because "…"}.
   *
   * @param aspects those of its subjects that stand in quotation marks
   * @param names its other subjects
   */
  public record Accept(
      Word check, List<Word> aspects, List<Word> names, List<Word> forms, Word reason, Span span)
      implements Declaration {}

  /**
   * {@code expect red over green on two-head with DV plate means "Medium Clear"}.
   *
   * @param pictures at least one
   * @param aspect empty for {@code nothing}
   */
  public record Meaning(
      List<Pattern> pictures, List<Word> forms, List<Word> plates, List<Word> aspect, Span span)
      implements Declaration {}

  /**
   * {@code expect "Approach" less restrictive than "Stop"}.
   *
   * @param order {@code more} or {@code less} restrictive than, or in {@code no} known order
   */
  public record Order(Word first, Word order, Word second, Span span) implements Declaration {}

  /** {@code expect "Slow Approach" allows slow then stop}. */
  public record Allowed(Word aspect, Allows allows, Span span) implements Declaration {}

  /**
   * {@code expect "Approach" before "Stop"}, {@code expect "Clear" not before "Stop"}.
   *
   * @param denied true after {@code not}
   * @param how {@code before} or {@code after}
   */
  public record Precedence(Word first, boolean denied, Word how, Word second, Span span)
      implements Declaration {}

  /**
   * {@code aspect "Clear" { … }}.
   *
   * @param was names that it had in earlier editions
   * @param up the numbers after which {@code up} is written
   */
  public record Aspect(
      Word name,
      List<Word> was,
      List<Word> rules,
      List<Word> numbers,
      List<Word> up,
      List<Word> indications,
      List<Allows> allows,
      List<Shows> shows,
      List<Likeness> likenesses,
      Span span)
      implements Declaration {}

  /**
   * {@code allows normal then limited then slow at the second signal}.
   *
   * @param next at the next signal
   * @param atShortDistance true when the next signal is said to be nearer than usual
   * @param second at the second signal
   */
  public record Allows(
      Movement here,
      List<Movement> next,
      boolean atShortDistance,
      List<Movement> second,
      Span span) {}

  /**
   * {@code stop}, {@code slow}, {@code stop, then slow}, {@code normal reducing to slow}, {@code
   * unsaid} or {@code not stop}.
   *
   * @param stops true when it begins with a stop
   * @param denied true for {@code not stop}
   * @param speed empty for a plain stop, for what is unsaid and for what is no stop
   * @param reduced the speed that it is reduced to, if any
   */
  public record Movement(
      boolean stops, boolean denied, List<Pace> speed, List<Pace> reduced, Span span) {}

  /**
   * {@code slow}, or {@code {n}}.
   *
   * @param numeral true for a letter that stands for a number
   */
  public record Pace(Word name, boolean numeral) {}

  /** {@code on one-head, ground with L plate show green or yellow}. */
  public record Shows(List<Word> forms, List<Word> plates, List<Pattern> patterns, Span span) {}

  /**
   * {@code as "Clear to Slow" on two-head with DV plate except red over yellow}.
   *
   * @param forms empty for every form that shows the other aspect
   * @param exceptions what the other aspect shows and this one does not
   */
  public record Likeness(
      Word aspect, List<Word> forms, Word plate, List<Pattern> exceptions, Span span) {}

  /** {@code red over (yellow or dark)}. */
  public record Pattern(List<Choice> choices, Span span) {}

  /**
   * One display, several in brackets, or none for {@code any}.
   *
   * @param letter what stands for the number that a head shows, as in {@code {n}}
   */
  public record Choice(List<Display> displays, List<Word> letter, Span span) {}

  /**
   * {@code flashing yellow}.
   *
   * @param rhythm empty when steady
   * @param look a colour, a figure or {@code dark}
   */
  public record Display(List<Word> rhythm, Word look) {}
}
