package dev.doublet.cli;

import java.util.concurrent.Flow;
import java.util.function.Consumer;

/** Takes lines as they arrive. */
final class Lines implements Flow.Subscriber<String> {
  private final Consumer<String> taker;

  Lines(Consumer<String> taker) {
    this.taker = taker;
  }

  @Override
  public void onSubscribe(Flow.Subscription subscription) {
    subscription.request(Long.MAX_VALUE);
  }

  @Override
  public void onNext(String line) {
    taker.accept(line);
  }

  @Override
  public void onError(Throwable trouble) {
    // The stream is over, which the answer to the request tells too.
  }

  @Override
  public void onComplete() {
    // So is this.
  }
}
