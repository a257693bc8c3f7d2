# The JSON Schema that `littershed schema` prints accepts the demo farm and refuses a farm with an unknown key.
set -eu
make -s
build/littershed schema > build/farm.schema.json
/usr/bin/python3 - <<'PY'
import json, jsonschema, yaml

class Text(yaml.SafeLoader):
    pass

# All scalars as text, as the program reads them.
Text.yaml_implicit_resolvers = {}
schema = json.load(open("build/farm.schema.json"))
jsonschema.Draft202012Validator.check_schema(schema)
for name in ("fixtures/demo-house.yaml", "fixtures/demo-fields.yaml"):
    jsonschema.validate(yaml.load(open(name), Text), schema)
try:
    jsonschema.validate({"hosues": []}, schema)
except jsonschema.ValidationError:
    pass
else:
    raise SystemExit("an unknown key was accepted")
PY
