DROP INDEX `questions_by_state`;--> statement-breakpoint
CREATE INDEX `questions_by_state_and_date` ON `questions` (`state`,`asked_at`,`id`);--> statement-breakpoint
CREATE INDEX `questions_by_reminder` ON `questions` (`remind_at`) WHERE "questions"."remind_at" is not null;--> statement-breakpoint
DROP INDEX `runs_by_title`;--> statement-breakpoint
DROP INDEX `runs_by_machine`;--> statement-breakpoint
CREATE INDEX `runs_by_processor` ON `runs` (`processor_id`,`at`);--> statement-breakpoint
CREATE INDEX `runs_by_card` ON `runs` (`card_id`,`at`);--> statement-breakpoint
CREATE INDEX `runs_by_date` ON `runs` (`at`,`id`);--> statement-breakpoint
CREATE INDEX `runs_by_title` ON `runs` (`title_id`,`title_version`,`at`);--> statement-breakpoint
CREATE INDEX `runs_by_machine` ON `runs` (`machine_tag`,`at`);--> statement-breakpoint
CREATE INDEX `jobs_by_date` ON `jobs` (`agreed_at`);--> statement-breakpoint
CREATE INDEX `machines_in_order` ON `machines` (rtrim(`tag`, '0123456789'),length(`tag`),`tag`);--> statement-breakpoint
CREATE INDEX `warranties_by_end` ON `warranties` (`until`);--> statement-breakpoint
CREATE INDEX `mails_by_state` ON `mails` (`state`,`updated_at`,`id`);--> statement-breakpoint
CREATE INDEX `mails_in_search` ON `mails` (`updated_at`,`id`,`state`,`to_name`,`to_address`,`subject`,`machine_tag`);--> statement-breakpoint
CREATE INDEX `state_changes_by_date` ON `state_changes` (`about`,`at`);--> statement-breakpoint
CREATE INDEX `customers_in_order` ON `customers` (("erased_at" is not null),`name`,`id`);