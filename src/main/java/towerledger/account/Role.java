package towerledger.account;

/** What a person is to the contractor; decides what they may see and do. */
public enum Role {
  /** Works in the contractor's office: sees and changes everything. */
  OFFICE,
  /** Stands at the tower: sees the assigned sites and enters readings there, never prices. */
  TECHNICIAN,
  /** Works for a customer: reads the customer's own sites, enters readings where allowed. */
  CUSTOMER
}
