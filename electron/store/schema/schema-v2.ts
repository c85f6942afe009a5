/** Version 2: how the bench was left to look, which is no part of any header. */

export const SCHEMA_V2 = `
CREATE TABLE looks (
  name TEXT NOT NULL PRIMARY KEY CHECK (length(name) BETWEEN 1 AND 40),
  value TEXT NOT NULL CHECK (json_valid(value) AND length(value) <= 4000),
  checksum INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
`;
