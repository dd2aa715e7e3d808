CREATE TABLE `backups` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`path` text,
	`bytes` integer,
	`rows` integer,
	`schema_version` integer,
	`checked_at` text,
	`failure` text,
	`removed_at` text
);
--> statement-breakpoint
CREATE INDEX `backups_by_time` ON `backups` (`at`);--> statement-breakpoint
CREATE TABLE `change_by` (
	`id` integer PRIMARY KEY NOT NULL,
	`by` text,
	`how` text DEFAULT 'each' NOT NULL,
	`since` integer DEFAULT 0 NOT NULL,
	CONSTRAINT "change_by_one_row" CHECK("change_by"."id" = 1)
);
--> statement-breakpoint
CREATE TABLE `changes` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`by` text,
	`kind` text NOT NULL,
	`record` text,
	`what` text NOT NULL,
	`fields` text,
	`rows` integer DEFAULT 1 NOT NULL
);
--> statement-breakpoint
CREATE INDEX `changes_by_record` ON `changes` (`kind`,`record`,`id`);--> statement-breakpoint
CREATE INDEX `changes_by_person` ON `changes` (`by`,`id`);--> statement-breakpoint
CREATE INDEX `changes_by_time` ON `changes` (`at`);--> statement-breakpoint
CREATE TABLE `work_leases` (
	`name` text PRIMARY KEY NOT NULL,
	`holder` text NOT NULL,
	`until` text NOT NULL
);
--> statement-breakpoint
INSERT INTO `change_by` (`id`) VALUES (1);--> statement-breakpoint
CREATE TRIGGER `changes_only_added` BEFORE UPDATE OF `id`, `at`, `by`, `kind`, `record`, `what`, `fields` ON `changes` BEGIN SELECT RAISE(ABORT, 'changes are only added to'); END;
