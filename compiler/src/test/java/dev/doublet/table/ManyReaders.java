package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Changes the reader in C in some hundred small ways, and asks whether {@link ReaderInCTest}, whose
 * talks are held with each anew, would notice. A change that makes the same programs is none. A
 * profile of its own runs this, as each costs some compilations.
 */
class ManyReaders {
  private static final int CHANGES = Integer.getInteger("changes", 300);
  private static final List<String> HOSTS = List.of("quick", "checked", "fading");

  /** Comments and lines of the preprocessor are passed over; what is left is changed by sort. */
  private static final Pattern PART =
      Pattern.compile(
          "/\\*.*?\\*/|//[^\n]*|(?m:^[ \t]*#(?:\\\\\n|[^\n])*)|->|\\+\\+|--"
              + "|(?<change><<=?|>>=?|&&|\\|\\||[<>=!]=|[<>|^]|[+&-](?== | )|!(?=[a-z(])|\\b\\d+(?=u?\\b))",
          Pattern.DOTALL);

  private static final Map<String, String> OTHER =
      Map.ofEntries(
          Map.entry("<", "<="),
          Map.entry("<=", "<"),
          Map.entry(">", ">="),
          Map.entry(">=", ">"),
          Map.entry("==", "!="),
          Map.entry("!=", "=="),
          Map.entry("<<", ">>"),
          Map.entry(">>", "<<"),
          Map.entry("<<=", ">>="),
          Map.entry(">>=", "<<="),
          Map.entry("&&", "||"),
          Map.entry("||", "&&"),
          Map.entry("&", "|"),
          Map.entry("|", "&"),
          Map.entry("^", "&"),
          Map.entry("+", "-"),
          Map.entry("-", "+"),
          Map.entry("!", ""));

  /** What stood at a place of the reader, and what stands there instead. */
  private record Change(int line, int start, String was, String is) {
    String in(String reader) {
      return reader.substring(0, start) + is + reader.substring(start + was.length());
    }
  }

  @TempDir private Path folder;
  private final Map<String, Long> millis = new HashMap<>();

  @Test
  void at_least_85_of_100_changes_are_noticed() throws Exception {
    Compilation.assumeCompiler("gcc");
    hear();
    Compilation compilation = new Compilation(folder);
    Path header = folder.resolve("doublet_reader.h");
    String reader = Files.readString(header);
    Map<String, byte[]> programs = new HashMap<>();
    for (String host : HOSTS) {
      long start = System.nanoTime();
      assertThat(agrees(started(compilation, host), host, Long.MAX_VALUE)).as(host).isTrue();
      millis.put(host, (System.nanoTime() - start) / 1_000_000);
      programs.put(host, Files.readAllBytes(folder.resolve(host)));
    }
    int made = 0;
    int noticed = 0;
    for (Change change : changes(reader)) {
      Files.writeString(header, change.in(reader));
      Boolean seen = isNoticed(compilation, programs);
      if (seen != null) {
        made++;
        noticed += seen ? 1 : 0;
        if (!seen) {
          System.out.printf("line %d: %s for %s%n", change.line, change.is, change.was);
        }
      }
      if (made == CHANGES) {
        break;
      }
    }
    System.out.printf("%d of %d changes noticed%n", noticed, made);
    assertThat(noticed).isGreaterThanOrEqualTo((int) Math.ceil(0.85 * made));
  }

  /** Null when the change does not compile, or changes no program. */
  private Boolean isNoticed(Compilation compilation, Map<String, byte[]> programs)
      throws Exception {
    Boolean seen = null;
    for (String host : HOSTS) {
      Process process;
      try {
        process = started(compilation, host);
      } catch (AssertionError doesNotCompile) {
        return null;
      }
      if (Arrays.equals(programs.get(host), Files.readAllBytes(folder.resolve(host)))) {
        process.destroyForcibly().waitFor();
      } else if (!agrees(process, host, 10 * millis.get(host) + 5_000)) {
        return true;
      } else {
        seen = false;
      }
    }
    return seen;
  }

  /** All changes that can be made, in an order by chance that is always the same. */
  private static List<Change> changes(String reader) {
    List<Change> changes = new ArrayList<>();
    int line = 1;
    int counted = 0;
    for (Matcher part = PART.matcher(reader); part.find(); ) {
      String was = part.group("change");
      if (was != null) {
        line +=
            (int) reader.substring(counted, part.start()).chars().filter(c -> c == '\n').count();
        counted = part.start();
        String is = OTHER.containsKey(was) ? OTHER.get(was) : "" + (Long.parseLong(was) + 1);
        changes.add(new Change(line, part.start(), was, is));
      }
    }
    Collections.shuffle(changes, new Random(1959));
    return changes;
  }

  private static Process started(Compilation compilation, String host) throws Exception {
    return switch (host) {
      case "quick" -> compilation.quickHost();
      case "fading" -> compilation.fadingHost();
      default -> compilation.checkedHost();
    };
  }

  private void hear() throws Exception {
    Path place = Files.createDirectory(folder.resolve("heard"));
    Map<String, OutputStream> streams = new HashMap<>();
    for (String host : HOSTS) {
      for (String part : List.of(".asked", ".said")) {
        Path file = folder.resolve(host + part);
        streams.put(host + part, new BufferedOutputStream(Files.newOutputStream(file)));
      }
    }
    ReaderInCTest.holdEveryTalk(
        place,
        (host, request, answer) -> {
          streams.get(host + ".asked").write(request);
          int size = Integer.reverseBytes(answer.length);
          streams.get(host + ".said").write(ByteBuffer.allocate(4).putInt(size).array());
          streams.get(host + ".said").write(answer);
        });
    for (OutputStream stream : streams.values()) {
      stream.close();
    }
  }

  /** Whether a program says what the reader as it is has said, in time. */
  private boolean agrees(Process process, String host, long most) throws Exception {
    Thread asking =
        new Thread(
            () -> {
              try (OutputStream out = process.getOutputStream()) {
                Files.copy(folder.resolve(host + ".asked"), out);
              } catch (IOException ended) {
                // A changed reader may end before it has heard everything.
              }
            });
    Thread watching =
        new Thread(
            () -> {
              try {
                Thread.sleep(most);
                process.destroyForcibly();
              } catch (InterruptedException done) {
                // It ended in time.
              }
            });
    asking.start();
    watching.setDaemon(true);
    watching.start();
    boolean same = true;
    try (InputStream said = process.getInputStream();
        InputStream expected = Files.newInputStream(folder.resolve(host + ".said"))) {
      for (byte[] part; same && (part = expected.readNBytes(1 << 16)).length > 0; ) {
        same = Arrays.equals(part, said.readNBytes(part.length));
      }
    }
    process.destroyForcibly().waitFor();
    watching.interrupt();
    asking.join();
    return same;
  }
}
