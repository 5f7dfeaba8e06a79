package dev.doublet.rulebook;

/** What can fail on a signal. */
public enum Fault {
  /** One lamp is dark. */
  LAMP_OUT("lamp-out"),
  /** What flashes stays lit, or stays dark. */
  FLASHER_STUCK("flasher-stuck"),
  /** A plate is missing. */
  PLATE_LOST("plate-lost"),
  /** One die of an LED that mixes its colour is dead. */
  DIE_OUT("die-out"),
  /** One LED passes nothing on: it and all that follow it are dark. */
  CHAIN_BROKEN("chain-broken");

  private final String words;

  Fault(String words) {
    this.words = words;
  }

  /** As the language says it. */
  public String words() {
    return words;
  }
}
