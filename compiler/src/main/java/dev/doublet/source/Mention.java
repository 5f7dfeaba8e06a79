package dev.doublet.source;

/**
 * One place where a name is written. Two mentions of one rulebook, or of one layout with its
 * rulebook, name the same thing when their kinds, owners and names are the same; those of several
 * rulebooks, when the same place declares them.
 *
 * @param kind what it names
 * @param owner what the name is known in, where others may use it too: the controller of a chain,
 *     the form of a place, the aspect or expectation of a letter; else empty
 * @param name without quotation marks
 * @param span where, quotation marks included
 * @param declares true where the name is given its meaning, false where it is used
 */
public record Mention(Kind kind, String owner, String name, Span span, boolean declares) {

  /** Of a name that is known everywhere. */
  public Mention(Kind kind, String name, Span span, boolean declares) {
    this(kind, "", name, span, declares);
  }

  /** True for another mention of the same thing. */
  public boolean isOf(Mention other) {
    return kind == other.kind && owner.equals(other.owner) && name.equals(other.name);
  }

  /** What a name can stand for. */
  public enum Kind {
    /** An aspect of a rulebook. */
    ASPECT,
    /** A form of signal. */
    FORM,
    /** A head's place on a form. */
    PLACE,
    /** A plate. */
    PLATE,
    /** A colour of light. */
    COLOUR,
    /** A way of flashing. */
    RHYTHM,
    /** A speed. */
    SPEED,
    /** A make of head. */
    HEAD,
    /** A figure that the lamps of a head form, or a number of the book. */
    FIGURE,
    /** A letter that stands for a number, in an aspect or an expectation. */
    LETTER,
    /** A kind of signal of a layout. */
    KIND,
    /** A bus of a layout. */
    BUS,
    /** A controller of a layout. */
    CONTROLLER,
    /** A chain of LEDs. */
    CHAIN,
    /** A kind of LED. */
    LED,
    /** A kind of driver chip. */
    CHIP,
    /** A supply of a layout. */
    SUPPLY,
    /** A signal of a layout. */
    SIGNAL
  }
}
