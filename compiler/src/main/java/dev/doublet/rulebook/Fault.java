package dev.doublet.rulebook;

/**
 * What can fail on a signal. Which faults are usual is common practice, from memory: lamps go out,
 * flashers stick and plates get lost. That a lamp stays lit, by a stray feed or a contact that
 * welds, is rarer, and so is a vane that jams; circuits are cut at both ends and vanes proved in
 * place against them; an arm is too. An arm falls to its safe side when its wire parts, which it is
 * weighted for. A die that stays lit is a fault of the chip that drives it, and rarer still.
 */
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
  CHAIN_BROKEN("chain-broken"),
  /** One lamp is lit that should be dark. */
  LAMP_STUCK("lamp-stuck"),
  /** A vane is still where it last stood. */
  VANE_STUCK("vane-stuck"),
  /** An arm has fallen to its safe side. */
  ARM_FALLEN("arm-fallen"),
  /** An arm is still where it last stood. */
  ARM_STUCK("arm-stuck"),
  /** One die of an LED is lit that should be dark. */
  DIE_STUCK("die-stuck");

  private final String words;

  Fault(String words) {
    this.words = words;
  }

  /** As the language says it. */
  public String words() {
    return words;
  }
}
