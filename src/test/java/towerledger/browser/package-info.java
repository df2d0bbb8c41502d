/** The pages in a real browser. */
package towerledger.browser;
