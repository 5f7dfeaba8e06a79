package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Pinning;
import dev.doublet.layout.Pinning.Automatic;
import java.util.ArrayList;
import java.util.List;

/**
 * Addresses and values that no file says, so that they move when the layout or the book changes.
 */
public final class AutomaticNumbers implements Check.OfLayout {
  private static final int SHOWN = 3;

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Layout layout = facts.layout();
    Pinning pinning = layout.pinning();
    // What a pinned layout does not say is an error, and has been told.
    if (pinning.pinned() || pinning.automatic().isEmpty()) {
      return List.of();
    }
    int addresses = pinning.automatic().stream().mapToInt(Automatic::addresses).sum();
    int values = pinning.automatic().stream().mapToInt(Automatic::values).sum();
    List<String> counts = new ArrayList<>();
    if (addresses > 0) {
      counts.add(Words.count(addresses, "address"));
    }
    if (values > 0) {
      counts.add(Words.count(values, "value"));
    }
    Diagnostic said =
        finding(
                Severity.NOTE,
                layout.span(),
                Words.list(counts) + (addresses + values == 1 ? " is" : " are") + " automatic")
            .number("addresses", addresses, "address")
            .number("values", values, "value");
    for (Automatic one : pinning.automatic().stream().limit(SHOWN).toList()) {
      said = said.related(one.span(), "could say {write}", Datum.of("write", one.writing()));
    }
    return List.of(
        said.because(
                "one more signal moves the addresses after it, and one more aspect the values:"
                    + " what was programmed into a throttle then calls up something else")
            .help(
                "once a throttle is programmed, run doublet pin, which writes them into the file"));
  }
}
