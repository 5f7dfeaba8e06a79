package dev.doublet.rulebook;

/**
 * One lamp showing one colour.
 *
 * @param lamp index of the lamp in its head
 * @param colour the colour's name
 * @param rhythm the rhythm of this lamp alone, while others of its figure are steady or in another;
 *     empty when it is in that of the whole head
 */
public record Lit(int lamp, String colour, String rhythm) {

  /** A lamp in the rhythm of its head. */
  public Lit(int lamp, String colour) {
    this(lamp, colour, "");
  }

  /** What the lamp shows while its head shows something. */
  public Display shown(Display by) {
    return new Display(colour, rhythm.isEmpty() ? by.rhythm() : rhythm);
  }
}
