/**
 * Reads layouts: each class one part of a layout file, complaining of what it cannot use. Depends
 * on {@code syntax}, {@code rulebook} and the records of {@code layout}, which know nothing of it;
 * the compiler uses it.
 *
 * <p><b>The layout.</b> Addresses go on from the signal before, over chains and controllers,
 * starting at 1; basic and extended ones share the count. {@code flash} and {@code ram} must be
 * said, since a default would make the budgets meaningless. A signal that says neither kind nor
 * form is built as the one before it on its chain. Anchors and aliases are refused, which also
 * makes a bomb of them harmless. The YAML library takes time quadratic in the length of one word,
 * so a line of more than a million characters is refused.
 */
package dev.doublet.layout.read;
