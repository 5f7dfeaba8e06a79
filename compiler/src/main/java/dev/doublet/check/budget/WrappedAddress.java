package dev.doublet.check.budget;

import dev.doublet.bus.Accessory;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Unit;
import java.util.ArrayList;
import java.util.List;

/** An address that wraps round to decoder 0, which not every system sends. */
public final class WrappedAddress implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Unit unit : facts.units()) {
      for (int address : unit.command().addresses()) {
        int firstDecoder = unit.command().bus().firstDecoder();
        if (Accessory.comesRound(address, firstDecoder)) {
          found.add(report(unit, address, Accessory.binary(address, firstDecoder)));
          break;
        }
      }
    }
    return found;
  }

  private Diagnostic report(Unit unit, int address, int binary) {
    return finding(
            Severity.WARNING,
            unit.span(),
            Words.say(
                "address %d of %s wraps round to %d inside, on decoder 0",
                address, unit.name(), binary))
        .about(List.of(unit.name()))
        .label("address " + address)
        .word("signal", unit.name())
        .number("address", address, "")
        .number("address inside", binary, "")
        .number("decoder", 0, "")
        .because(
            "the OpenLCB Event Identifiers Standard says that addresses 2045 to 2048 \"may\" wrap: not every system can send them",
            "OpenLCB Event Identifiers Standard")
        .help("use an address up to {most}", Datum.of("most", 2040));
  }
}
