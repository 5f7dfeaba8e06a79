package dev.doublet.cli;

import picocli.CommandLine;
import picocli.CommandLine.IFactory;

/** Makes the verbs, each with the terminal it prints to. */
final class Verbs implements IFactory {
  private final Terminal terminal;

  Verbs(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public <K> K create(Class<K> type) throws Exception {
    if (type == CheckVerb.class) {
      return type.cast(new CheckVerb(terminal));
    }
    if (type == BuildVerb.class) {
      return type.cast(new BuildVerb(terminal));
    }
    if (type == AnswersVerb.class) {
      return type.cast(new AnswersVerb(terminal));
    }
    if (type == SequenceVerb.class) {
      return type.cast(new SequenceVerb(terminal));
    }
    if (type == WiringVerb.class) {
      return type.cast(new WiringVerb(terminal));
    }
    if (type == InspectVerb.class) {
      return type.cast(new InspectVerb(terminal));
    }
    if (type == ExplainVerb.class) {
      return type.cast(new ExplainVerb(terminal));
    }
    return CommandLine.defaultFactory().create(type);
  }
}
