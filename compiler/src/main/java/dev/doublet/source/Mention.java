package dev.doublet.source;

/**
 * One place where a name is written.
 *
 * @param kind what it names
 * @param name without quotation marks
 * @param span where, quotation marks included
 * @param declares true where the name is given its meaning, false where it is used
 */
public record Mention(Kind kind, String name, Span span, boolean declares) {

  /** What a name can stand for. */
  public enum Kind {
    /** An aspect of a rulebook. */
    ASPECT,
    /** A form of signal. */
    FORM,
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
    /** A figure that the lamps of a head form. */
    FIGURE,
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
    /** A supply of a layout. */
    SUPPLY,
    /** A signal of a layout. */
    SIGNAL
  }
}
