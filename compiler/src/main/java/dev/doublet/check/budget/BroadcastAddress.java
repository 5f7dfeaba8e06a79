package dev.doublet.check.budget;

import dev.doublet.bus.Accessory;
import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.List;

/** An address whose packet is the broadcast to every accessory. */
public final class BroadcastAddress implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Unit unit : facts.units()) {
      for (int address : unit.command().addresses()) {
        int firstDecoder = unit.command().bus().firstDecoder();
        boolean extended = unit.kind().way() instanceof Way.AspectNumber;
        boolean everyone =
            extended
                ? Accessory.extendedMeetsBroadcast(address, firstDecoder)
                : Accessory.basicMeetsBroadcast(address, firstDecoder);
        if (everyone) {
          int binary = Accessory.binary(address, firstDecoder);
          found.add(report(unit, extended ? "extended" : "basic", address, binary));
          break;
        }
      }
    }
    return found;
  }

  private Diagnostic report(Unit unit, String packet, int address, int binary) {
    return finding(
            Severity.WARNING,
            unit.span(),
            Words.say(
                "%s address %d (%d inside) of %s is the broadcast to all accessories",
                packet, address, binary, unit.name()))
        .about(List.of(unit.name()))
        .label("address " + address)
        .word("signal", unit.name())
        .word("packet", packet)
        .number("address", address, "")
        .number("address inside", binary, "")
        .because(
            "its packet has the same bytes as a broadcast of NMRA S-9.2.1, which every decoder of its sort must take, so that a command for this signal may move them all",
            "NMRA S-9.2.1")
        .help("use another address");
  }
}
