package dev.doublet.chart;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.EventId;
import dev.doublet.layout.Command;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import java.util.stream.Collectors;

/** Where units listen, in words. */
final class ListeningWords {
  private ListeningWords() {}

  /** "extended address 3 (inside 6)", "topic yard/W1", "event 05.01… and 3 more". */
  static String words(Unit unit) {
    Command command = unit.command();
    if (!command.topic().isEmpty()) {
      return "topic " + command.topic();
    }
    if (command.addresses().isEmpty()) {
      int more = command.events().size() - 1;
      String first = "event " + new EventId(command.events().get(0));
      return more > 0 ? first + " and " + more + " more" : first;
    }
    String sort =
        unit.kind().way() instanceof Way.AspectNumber ? "extended address " : "basic address ";
    return command.addresses().stream()
        .map(a -> a + " (inside " + Accessory.binary(a, command.bus().firstDecoder()) + ")")
        .collect(Collectors.joining(", ", sort, ""));
  }
}
