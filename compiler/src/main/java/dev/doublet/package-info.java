/** Doublet: a compiler for railway signal aspects on model layouts. */
package dev.doublet;
