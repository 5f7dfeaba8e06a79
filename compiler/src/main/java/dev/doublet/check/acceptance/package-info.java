/** Whether warnings that somebody lives with are still there. */
package dev.doublet.check.acceptance;
