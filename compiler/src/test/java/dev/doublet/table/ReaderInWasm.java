package dev.doublet.table;

import com.dylibso.chicory.runtime.Instance;
import com.dylibso.chicory.wasm.Parser;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Objects;

/**
 * The reader of pages in a WebAssembly runtime of Java, behind the same requests and answers as the
 * host program's of the reader in C.
 */
final class ReaderInWasm {
  /** What each unit remembers in a reader that settles and fades. */
  private static final int UNIT = 5;

  private final Instance instance;
  private ByteBuffer request;
  private ByteArrayOutputStream answer;

  ReaderInWasm(byte[] module) {
    this.instance = Instance.builder(Parser.parse(module)).build();
  }

  /** The module that pages hold. */
  static byte[] shipped() throws IOException {
    try (InputStream in = ReaderInWasm.class.getResourceAsStream("/dev/doublet/page/reader.wasm")) {
      return Objects.requireNonNull(in).readAllBytes();
    }
  }

  /** Does what a request says, and gives the answer. */
  byte[] ask(byte[] bytes) {
    request = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    answer = new ByteArrayOutputStream();
    request.getInt();
    int size = put("table", request.getInt());
    answer(call("open", size), 1);
    call("night", 0);
    while (request.hasRemaining()) {
      command();
    }
    return answer.toByteArray();
  }

  /** How long the shortest rhythm is, in milliseconds; 0 when nothing flashes. */
  int shortest() {
    return (int) call("shortest");
  }

  private void command() {
    char what = (char) request.get();
    int where = request.get() & 0xFF;
    int now = request.getInt();
    switch (what) {
      case 'p' -> {
        int size = put("command", request.get() & 0xFF);
        answer(call("packet", where, size, now), 2);
      }
      case 't' -> {
        int topic = request.get() & 0xFF;
        int payload = request.get() & 0xFF;
        put("command", topic + payload);
        answer(call("topic", where, topic, payload, now), 2);
      }
      case 'e' -> {
        int low = request.getInt();
        answer(call("event", where, request.getInt(), low, now), 2);
      }
      case 'n' -> call("night", where);
      case 'd' -> call("approach", request.getShort() & 0xFFFF, where, now);
      case 'l' -> {
        int size = request.getInt();
        int written = (int) call("frame", where, now);
        answer(written, 4);
        answer.writeBytes(get("leds", Math.min(size, written)));
      }
      case 'a' -> {
        for (int unit = 0; unit < call("units"); unit++) {
          answer(call("aspect", unit, now), 1);
        }
      }
      case 'm' -> answer.writeBytes(get("state", UNIT * (int) call("units")));
      default -> throw new IllegalArgumentException("pages do not ask for " + what);
    }
  }

  /** Puts the next bytes of the request where a call says; returns how many. */
  private int put(String place, int size) {
    byte[] bytes = new byte[size];
    request.get(bytes);
    instance.memory().write((int) call(place), bytes);
    return size;
  }

  private byte[] get(String place, int size) {
    return instance.memory().readBytes((int) call(place), size);
  }

  private void answer(long value, int bytes) {
    for (int i = 0; i < bytes; i++) {
      answer.write((int) (value >>> 8 * i));
    }
  }

  private long call(String function, long... arguments) {
    long[] result = instance.export(function).apply(arguments);
    return result == null || result.length == 0 ? 0 : result[0] & 0xFFFFFFFFL;
  }
}
