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
# What stands there when the mouse rests on a key is a sentence with an example; names of the tables are there to choose.
crop = schema["properties"]["buyers"]["items"]["properties"]["fields"]["items"]["properties"]["crop"]
assert "tall fescue hay" in crop["anyOf"][0]["enum"], crop
assert crop["description"][0].isupper() and "For example: \"crop: tall fescue hay\"" in crop["description"], crop
try:
    jsonschema.validate({"hosues": []}, schema)
except jsonschema.ValidationError:
    pass
else:
    raise SystemExit("an unknown key was accepted")
PY
