#pragma once
// The words every stage speaks: money, quantities, places in files, diagnostics, YAML trees, JSON trees, part
// specifications and the vocabulary that says how their attributes match.
#include "teetally/base/csv.h"
#include "teetally/base/diagnostic.h"
#include "teetally/base/file.h"
#include "teetally/base/json.h"
#include "teetally/base/money.h"
#include "teetally/base/part.h"
#include "teetally/base/place.h"
#include "teetally/base/quantity.h"
#include "teetally/base/report.h"
#include "teetally/base/shipped.h"
#include "teetally/base/vocabulary.h"
#include "teetally/base/words.h"
#include "teetally/base/yaml.h"
