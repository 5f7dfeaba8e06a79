/**
 * Second and third opinions on what Doublet proves, from a SAT solver (Sat4j) and from decision
 * diagrams (JavaBDD). Tests alone use this package.
 *
 * <p>{@link dev.doublet.oracle.SatTable} and {@link dev.doublet.oracle.BddTable} answer the
 * engine's questions of its own tables. {@link dev.doublet.oracle.Sketch} is a random rulebook with
 * a layout; it is written down as a user would write it and compiled, and what four checks then
 * find is compared with {@link dev.doublet.oracle.Meaning}, which says as formulas what the sketch
 * means and knows nothing of the compiler. So reading, resolving and translating are tried as well.
 *
 * <p>Another analyser of tables has a module of its own, {@code oracles}, as it brings some fifty
 * libraries along. It and {@link dev.doublet.oracle.ManyRulebooks} run with {@code mvn test
 * -Poracles}.
 */
package dev.doublet.oracle;
