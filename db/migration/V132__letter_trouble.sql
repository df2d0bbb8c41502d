-- The last letter to somebody that the mail server did not take; gone once it takes one.
CREATE TABLE account_letter_trouble (
  person_id BIGINT       NOT NULL,
  since     TIMESTAMP WITH TIME ZONE NOT NULL,
  said      VARCHAR(500) NOT NULL,
  given_up  BOOLEAN      NOT NULL,
  CONSTRAINT account_letter_trouble_pk PRIMARY KEY (person_id),
  CONSTRAINT account_letter_trouble_person_fk FOREIGN KEY (person_id) REFERENCES account_person (id)
);
