/**
 * Second and third opinions on what Doublet proves, from a SAT solver (Sat4j) and from decision
 * diagrams (JavaBDD). Tests alone use this package.
 */
package dev.doublet.oracle;
