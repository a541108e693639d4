package casefile

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/jsonschema-go/jsonschema"

	"rimclear/app/present"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

var update = flag.Bool("update", false, "write assets/schema/case.schema.json anew")

// schemaFile is where the schema lies.
const schemaFile = "../../assets/schema/case.schema.json"

// named are the properties of an object in their order.
type named struct {
	order  []string
	byName map[string]*jsonschema.Schema
}

func (n *named) add(key string, s *jsonschema.Schema) {
	if n.byName == nil {
		n.byName = map[string]*jsonschema.Schema{}
	}
	n.order, n.byName[key] = append(n.order, key), s
}

func (n *named) object(about string, required ...string) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "object", Description: about, Properties: n.byName, PropertyOrder: n.order, Required: required}
}

func (n *named) closed(about string) *jsonschema.Schema {
	s := n.object(about)
	s.AdditionalProperties = &jsonschema.Schema{Not: &jsonschema.Schema{}}
	return s
}

func raw(v any) json.RawMessage {
	data, err := json.Marshal(v)
	if err != nil {
		panic(err) // numbers, text and truth always have a form
	}
	return data
}

func words(about string, list []string) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "string", Description: about, Default: raw(list[0])}
	for _, w := range list {
		s.Enum = append(s.Enum, w)
	}
	return s
}

const (
	oneLine = `^[^\x00-\x1f\x7f-\x9f]*$`
	lines   = `^[^\x00-\x09\x0b-\x1f\x7f-\x9f]*$`
	keyOf   = `^[a-z0-9_]{1,60}$`
)

func textSchema(about, pattern string, most int) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "string", Description: about, MaxLength: jsonschema.Ptr(most), Pattern: pattern}
}

func numberSchema(about string, least, most float64) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "number", Description: about, Minimum: &least, Maximum: &most}
}

func flagSchema(about string) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "boolean", Description: about, Default: raw(false)}
}

func listSchema(about string, of *jsonschema.Schema, least, most int) *jsonschema.Schema {
	return &jsonschema.Schema{Type: "array", Description: about, Items: of, MinItems: &least, MaxItems: &most}
}

// parameterSchema describes the field of a parameter.
func parameterSchema(p *kinematics.Parameter) *jsonschema.Schema {
	w := present.English()
	about := w.Name(p.Key) + ". " + w.Help(p.Key)
	if p.Kind == kinematics.Choice {
		s := words(about, p.Choices)
		s.Default = raw(p.Choices[int(p.Default)])
		return s
	}
	switch p.Unit {
	case kinematics.Millimetre:
		about += " In millimetres."
	case kinematics.Degrees:
		about += " In degrees."
	}
	if p.Source != "" {
		about += " Range: " + w.Source(p.Source) + "."
	}
	s := numberSchema(about, p.Min, p.Max)
	s.Default = raw(p.Default)
	if p.Optional {
		s.Minimum, s.Maximum = nil, nil
		s.AnyOf = []*jsonschema.Schema{{Const: jsonschema.Ptr[any](0)}, {Minimum: &p.Min, Maximum: &p.Max}}
	}
	return s
}

func (n *named) parameters(scope kinematics.Scope) {
	for k := range kinematics.Parameters {
		if p := &kinematics.Parameters[k]; p.Scope == scope && !p.Derived {
			n.add(p.Key, parameterSchema(p))
		}
	}
}

// caseSchema describes the case file, made of the table of parameters and the
// bounds of the reader.
func caseSchema() *jsonschema.Schema {
	var top, design named
	top.add("format", &jsonschema.Schema{Const: jsonschema.Ptr[any](Format)})
	top.add("version", &jsonschema.Schema{Const: jsonschema.Ptr[any](Version),
		Description: "Of the format. Files of version 1 are read too, and saved as this version; a later version is refused."})
	top.add("label", textSchema("A free label. It is stored as plain text and printed in reports: write no name, number or date of birth of a patient.", oneLine, MaxLabel))
	top.parameters(kinematics.OfCase)
	top.add(motionsField, listSchema("Keys of the motions that are required: activities of the program, and recordings kept below. Keys nobody knows are kept.",
		textSchema("", keyOf, 60), 0, kinematics.MostMotions))
	top.add(criteriaField, &jsonschema.Schema{Type: "string", Pattern: `^[a-z0-9_]{0,60}$`,
		Description: "Key of the set of criteria required besides, empty for none."})
	top.add(recordingsField, listSchema("Recorded motions that are kept in the case.", recordingSchema(), 0, MaxRecordings))
	top.add(weighingField, weighingSchema())
	design.add("name", textSchema("What the design is called, empty for a letter.", oneLine, MaxName))
	design.parameters(kinematics.OfDesign)
	top.add("designs", listSchema("The implants compared in this hip.", design.object("An implant and how it is placed."), 1, kinematics.MaxDesigns))
	return top.object("One hip with one to four implant designs. Rigid-parts model, not a medical device; decisions belong to the licensed surgeon and local guidance. "+
		"What is left out has its default. Fields that are not described are kept and written back. "+
		"How values must fit together, such as a neck and its head, no schema can say: rimcalc check does.", "format", "version", "designs")
}

func weighingSchema() *jsonschema.Schema {
	var answer named
	answer.add(ruleField, textSchema("The rule that holds where the user works.", lines, MaxAnswer))
	answer.add(answerField, textSchema("What the user answers for this case; empty is not answered.", lines, MaxAnswer))
	return &jsonschema.Schema{
		Type: "object", Description: "What the user wrote to questions that geometry does not decide, by the key of the question.",
		PropertyNames: &jsonschema.Schema{Pattern: keyOf}, AdditionalProperties: answer.closed("Rule and answer."),
		MaxProperties: jsonschema.Ptr(MaxAnswers),
	}
}

func recordingSchema() *jsonschema.Schema {
	var r, m named
	r.add("key", textSchema("What motions names it by; each recording has its own.", keyOf, 60))
	r.add("name", textSchema("What it is called.", oneLine, MaxName))
	r.add("risk", words("Which way the motion is known to dislocate a hip.", motion.RiskKeys))
	r.add("zero", words("What the angles are counted from.", motion.ReferenceKeys))
	r.add("zero_plane", words("The posture whose pelvis is the zero, where zero is posture or room.", motion.PlaneKeys))
	r.add("zero_basis", words("What is known of the zero.", motion.BasisKeys))
	r.add("mechanical_axis", flagSchema("The angles are those of the mechanical axis of the femur."))
	m.add("time_column", textSchema("Heading of the column.", oneLine, MaxLabel))
	m.add("time_unit", words("Unit of the column of time.", timeUnits))
	m.add("samples_hz", numberSchema("Samples per second, where samples are counted.", 0, mostRate))
	m.add("angle_unit", words("Unit of the columns of angles.", angleUnits))
	for a, name := range angleFields {
		most := math.Round(motion.Range(hip.JointAngle(a)).Degrees())
		m.add(name+"_column", textSchema("Heading of the column, empty for none.", oneLine, MaxLabel))
		m.add(name+"_negated", flagSchema("The column counts the other way."))
		m.add(name+"_offset_deg", numberSchema("Added to the column's values.", -most, most))
	}
	r.add("mapping", m.closed("How the columns of the table were read, for the record: the samples below are already in degrees and the program's signs."))
	r.add("time_s", listSchema("Times of the samples in seconds, rising.", numberSchema("", -maxTime, maxTime), 2, MaxSamples))
	for a, name := range angleFields {
		most := math.Round(motion.Range(hip.JointAngle(a)).Degrees())
		r.add(name+"_deg", listSchema("One value per sample, in degrees.", numberSchema("", -most, most), 2, MaxSamples))
	}
	return r.object("A recorded motion of the hip.", "key", "name", "time_s", "flexion_deg", "adduction_deg", "internal_rotation_deg")
}

// head stands before what the schema says of a file.
const head = `{
  "$schema": "https://json-schema.org/draft/2020-12/schema",
  "$id": "urn:rimclear:case:2",
  "title": "Rimclear case",`

// written returns the schema as it stands in its file.
func written(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(caseSchema()); err != nil {
		t.Fatal(err)
	}
	return append([]byte(head), b.Bytes()[1:]...)
}

func TestTheSchemaIsMadeOfTheTable(t *testing.T) {
	want := written(t)
	if *update {
		if err := os.WriteFile(schemaFile, want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if !bytes.Equal(want, assets.CaseSchema()) {
		t.Error("the schema differs from the table; go test ./app/casefile -run Schema -update writes it anew")
	}
}

// schema is the embedded schema, ready to check.
func schema(t *testing.T) func(data []byte) error {
	t.Helper()
	var s jsonschema.Schema
	if err := json.Unmarshal(assets.CaseSchema(), &s); err != nil {
		t.Fatal(err)
	}
	r, err := s.Resolve(&jsonschema.ResolveOptions{ValidateDefaults: true})
	if err != nil {
		t.Fatal(err)
	}
	return func(data []byte) error {
		var v any
		if err := json.Unmarshal(data, &v); err != nil {
			return err
		}
		return r.Validate(v)
	}
}

func TestWhatIsSavedFitsTheSchema(t *testing.T) {
	check := schema(t)
	files := []File{kept(t, walked(50))}
	files[0].Weighing = Weighing{"bone_density": {Rule: "a\nb", Answer: "c"}}
	for k := range kinematics.Parameters {
		if p := &kinematics.Parameters[k]; !p.Derived {
			files = append(files, File{Case: featured(t, p.Key)})
		}
	}
	for _, f := range files {
		data, err := Encode(f)
		if err != nil {
			t.Fatal(err)
		}
		if err := check(data); err != nil {
			t.Errorf("%v\n%s", err, data)
		}
	}
}

func TestTheSchemaNamesEveryFieldThatIsSaved(t *testing.T) {
	data, err := Encode(kept(t, walked(3)))
	if err != nil {
		t.Fatal(err)
	}
	var saved map[string]any
	if err := json.Unmarshal(data, &saved); err != nil {
		t.Fatal(err)
	}
	unnamed := func(where string, s *jsonschema.Schema, o any) {
		for key := range o.(map[string]any) {
			if s.Properties[key] == nil {
				t.Errorf("%s: %s is not in the schema", where, key)
			}
		}
	}
	s := caseSchema()
	unnamed("case", s, saved)
	unnamed("design", s.Properties["designs"].Items, saved["designs"].([]any)[0])
	recording := saved["recordings"].([]any)[0].(map[string]any)
	unnamed("recording", s.Properties["recordings"].Items, recording)
	unnamed("mapping", s.Properties["recordings"].Items.Properties["mapping"], recording["mapping"])
}

func TestReaderAndSchemaRefuseTheSameValues(t *testing.T) {
	check := schema(t)
	refused := func(name, file string) {
		t.Helper()
		_, err := Decode([]byte(file))
		if err == nil {
			t.Errorf("%s: the reader takes %.120s", name, file)
		}
		if check([]byte(file)) == nil {
			t.Errorf("%s: the schema takes %.120s", name, file)
		}
	}
	for k := range kinematics.Parameters {
		p := &kinematics.Parameters[k]
		if p.Derived {
			continue
		}
		for _, v := range []string{`"x"`, "null", strconv.FormatFloat(p.Max+1, 'g', -1, 64), strconv.FormatFloat(min(p.Min, 0)-1, 'g', -1, 64)} {
			file := fmt.Sprintf(`{"format":"rimclear-case","version":2,%q:%s,"designs":[{}]}`, p.Key, v)
			if p.Scope == kinematics.OfDesign {
				file = fmt.Sprintf(`{"format":"rimclear-case","version":2,"designs":[{%q:%s}]}`, p.Key, v)
			}
			refused(p.Key, file)
		}
	}
	for _, part := range []string{`"label":"a\nb"`, `"label":3`, `"motions":["A"]`, `"motions":3`, `"criteria":"-"`, `"weighing":[]`,
		`"weighing":{"A":{}}`, `"weighing":{"a":{"more":""}}`, `"weighing":{"a":{"rule":"\u0000"}}`,
		`"recordings":{}`, `"recordings":[{}]`, `"recordings":[1]`} {
		refused("a part", `{"format":"rimclear-case","version":2,`+part+`,"designs":[{}]}`)
	}
	refused("version", `{"format":"rimclear-case","version":3,"designs":[{}]}`)
	refused("format", `{"format":"else","version":2,"designs":[{}]}`)
	refused("no designs", `{"format":"rimclear-case","version":2,"designs":[]}`)
	refused("absent designs", `{"format":"rimclear-case","version":2}`)
}

func TestEveryFieldNameSaysItsUnit(t *testing.T) {
	ends := map[kinematics.Unit]string{kinematics.Millimetre: "_mm", kinematics.Degrees: "_deg"}
	for _, p := range kinematics.Parameters {
		if end := ends[p.Unit]; p.Kind == kinematics.Number && end != "" && !strings.HasSuffix(p.Key, end) {
			t.Errorf("%s is in %s", p.Key, end)
		}
	}
	if !slices.Equal(timeUnits, []string{"seconds", "milliseconds", "samples"}) {
		t.Errorf("units of time %q", timeUnits)
	}
}
