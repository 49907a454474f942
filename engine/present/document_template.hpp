// The page of a document that is handed to somebody.
#pragma once

namespace ashtriage::present {

extern const char* const document_template;

}  // namespace ashtriage::present
