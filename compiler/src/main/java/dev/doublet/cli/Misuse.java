package dev.doublet.cli;

import dev.doublet.diagnostic.Words;
import dev.doublet.source.Nearest;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.StreamSupport;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.OverwrittenOptionException;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** What of a command line is not understood, in one sentence. */
final class Misuse {
  private Misuse() {}

  /**
   * One sentence about what went wrong. A misspelt verb or option is told before what is missing or
   * one too many because of it.
   *
   * @param mistake what the library that reads options says
   * @param arguments at least one
   */
  static String words(ParameterException mistake, String... arguments) {
    CommandSpec verb = mistake.getCommandLine().getCommandSpec();
    String first = arguments[0];
    if (!first.startsWith("-") && !Verbs.names().contains(first)) {
      return unknown("verb", first, Verbs.names(), "doublet");
    }
    Optional<String> strange = strange(verb, List.of(arguments));
    if (strange.isPresent()) {
      Collection<String> known = verb.optionsMap().keySet();
      return unknown("option", strange.get(), known, verb.qualifiedName());
    }
    return said(mistake, verb, List.of(arguments)) + help(verb.qualifiedName(), "what it takes");
  }

  private static String unknown(String what, String name, Collection<String> known, String verb) {
    return Words.say("there is no %s \"%s\"", what, name)
        + Nearest.to(name, known)
            .map(near -> "; did you mean \"" + near + "\"?")
            .orElse(help(verb, "what there is"));
  }

  private static String help(String verb, String what) {
    return Words.say("; \"%s --help\" tells %s", verb, what);
  }

  /** The first option that a verb does not have; what follows one that takes a value is none. */
  private static Optional<String> strange(CommandSpec verb, List<String> arguments) {
    boolean value = false;
    for (String argument : arguments) {
      if (argument.equals("--")) {
        return Optional.empty();
      }
      String name = argument.split("=", 2)[0];
      OptionSpec option = verb.optionsMap().get(name);
      if (!value && option == null && name.matches("-.+")) {
        return Optional.of(name);
      }
      value = !value && option != null && name.equals(argument) && option.arity().max() > 0;
    }
    return Optional.empty();
  }

  private static String said(ParameterException mistake, CommandSpec verb, List<String> arguments) {
    if (mistake instanceof UnmatchedArgumentException unmatched) {
      return Words.say("\"%s\" is one too many", unmatched.getUnmatched().get(0));
    }
    if (mistake instanceof MissingParameterException missing) {
      ArgSpec first = missing.getMissing().get(0);
      boolean begun = first.isOption() && arguments.stream().anyMatch(name(first, verb)::equals);
      String owner = begun ? name(first, verb) : verb.name();
      String option = first.isOption() && !begun ? name(first, verb) + " " : "";
      return Words.say("%s needs %s%s", owner, option, first.paramLabel());
    }
    if (mistake instanceof OverwrittenOptionException twice) {
      return name(twice.getOverwritten(), verb) + " is said twice";
    }
    ArgSpec refused = mistake.getArgSpec();
    if (refused == null) {
      return mistake.getMessage();
    }
    String instead = mistake.getValue() == null ? "" : ", not \"" + mistake.getValue() + '"';
    return Words.say("%s takes %s%s", name(refused, verb), taken(refused), instead);
  }

  private static String taken(ArgSpec argument) {
    if (argument.completionCandidates() != null) {
      return Words.alternatives(
          StreamSupport.stream(argument.completionCandidates().spliterator(), false).toList(),
          word -> word);
    }
    return argument.arity().max() == 0 ? "no value" : argument.paramLabel();
  }

  private static String name(ArgSpec argument, CommandSpec verb) {
    return argument instanceof OptionSpec option ? option.longestName() : verb.name();
  }
}
