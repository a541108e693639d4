package assets

import _ "embed"

//go:embed schema/case.schema.json
var caseSchema []byte

// CaseSchema returns the JSON Schema (draft 2020-12) of the case file. It is
// made of the table of parameters by a test of app/casefile.
func CaseSchema() []byte { return caseSchema }
