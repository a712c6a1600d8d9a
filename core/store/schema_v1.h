#pragma once

namespace tarebook {

/// `PRAGMA application_id` of a shop file: the bytes TARE.
inline constexpr int kApplicationId = 0x54415245;

/// Tables, triggers and indexes of version 1. Never edited once shipped; a later version is a migration.
/// The journal and its guards:
extern const char* const kJournalSchemaV1;
/// The views made from it:
extern const char* const kViewSchemaV1;
/// Of the views, the orders of legs by account, which nothing needs while all legs are made anew: SQLite
/// sorts them once in much less time than it keeps them while it inserts.
extern const char* const kLegOrdersV1;
extern const char* const kDropLegOrdersV1;

} // namespace tarebook
