package dev.doublet.editor;

import dev.doublet.MendedTexts;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Edits;
import dev.doublet.diagnostic.Fix;
import dev.doublet.source.SourceReader;
import java.util.List;

/** What {@code check --fix} would do, for an editor that asks what may be done at a place. */
public final class Mends {
  private Mends() {}

  /**
   * The changes that may mend a finding. One that is sure is left out where {@code check --fix}
   * would not make it either, as it makes an error.
   *
   * @param root where it was found
   * @param texts as they were then
   */
  public static List<Fix> of(Root root, SourceReader texts, Diagnostic finding) {
    boolean refused =
        Edits.sure(finding).isPresent()
            && !MendedTexts.keeps(
                texts, reader -> Root.quick(root.path(), reader).whole(), Root::findings, finding);
    return refused ? List.of() : finding.fixes();
  }
}
