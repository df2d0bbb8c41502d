/** Who may do what, checked over every route. */
package towerledger.security;
