package dev.doublet.table;

/** Why a table cannot be written, or bytes are not taken for one. */
public final class TableFault extends Exception {
  private static final long serialVersionUID = 1L;

  private final Reason reason;

  /**
   * States a fault.
   *
   * @param reason what sort of fault
   * @param words a sentence for people, without its full stop
   */
  public TableFault(Reason reason, String words) {
    super(words);
    this.reason = reason;
  }

  /** Refuses what is not sound. */
  static void require(boolean holds, String otherwise) throws TableFault {
    if (!holds) {
      throw new TableFault(Reason.NOT_SOUND, otherwise);
    }
  }

  /** What sort of fault. */
  public Reason reason() {
    return reason;
  }

  /** The sorts of fault; the first seven are those of the reader in C, in its order. */
  public enum Reason {
    /** Fewer bytes than a header and a checksum. */
    TOO_SHORT,
    /** The first four bytes are not those of a table. */
    NOT_A_TABLE,
    /** A format version this reader does not know. */
    OTHER_VERSION,
    /** The length in the header is not the number of bytes. */
    WRONG_LENGTH,
    /** The checksum does not fit the bytes. */
    WRONG_CHECKSUM,
    /** The checksum fits, but the contents break a rule of the format. */
    NOT_SOUND,
    /** The layout holds more of something than the format can number. */
    TOO_MUCH,
    /** Two topics or two names have the same checksum, so the reader could not tell them apart. */
    SAME_CHECKSUM,
    /** The layout does not say enough, or contradicts itself. */
    NOT_COMPLETE
  }
}
